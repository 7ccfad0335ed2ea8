import { Section } from "./section";

/// The usual cautions, as the report has them.
export function Cautions() {
  return (
    <Section id="cautions" title="Cautions">
      <h3>Lithium cells burn</h3>
      <ul>
        <li>Use matched cells of known origin, a protection board that watches every group, and a charger set to the cells' own limits.</li>
        <li>Never charge them below 0 degC or above what their datasheet allows. Never use a cell that is dented, swollen, leaking, or was below its lowest voltage for long.</li>
        <li>Weld or clip the cells; do not solder to them. Cover every bare end: a pack gives its full short-circuit current as long as you work on it.</li>
        <li>Charge the finished pack for the first time under your eyes, on a surface that does not burn, with a way to take it outside. Keep a smoke alarm nearby; water cools, and the fumes are poisonous.</li>
      </ul>
      <h3>Heat, fuses, mains</h3>
      <ul>
        <li>Put the main fuse next to the pack, with a DC breaking capacity above the pack's short-circuit current. A fuse rated for AC only promises nothing on DC.</li>
        <li>Warm parts need air: leave vents free, and measure temperatures in the closed box on the first long run.</li>
        <li>Mains adapters are bought, certified parts: do not open them, and use them within their label. Nothing here is about mains wiring.</li>
        <li>Lead-acid batteries give off hydrogen while they charge: let air through, keep sparks away. The acid burns eyes and skin.</li>
        <li>This is help with computing, no approval. Local codes and rules come first; where they ask for licensed practice, have the work done or checked by someone who holds the licence.</li>
      </ul>
    </Section>
  );
}
