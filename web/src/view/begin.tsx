import { useEffect, useState } from "preact/hooks";
import * as api from "../api";
import { openCatalogue, shelf } from "../catalogue";
import { ask } from "../door";
import { change } from "../sheet";
import { Section } from "./section";

interface Device { name: string; volts: string; draws: string }
interface Adapter { volts: string; amps: string }

/// An empty folder: from a few questions to a first sheet, which the program writes.
export function Begin(props: { folder: string }) {
  const [devices, setDevices] = useState<Device[]>([{ name: "", volts: "", draws: "" }]);
  const [adapters, setAdapters] = useState<Adapter[]>([{ volts: "", amps: "" }]);
  const [outlast, setOutlast] = useState("");
  const [cell, setCell] = useState("");
  const [trouble, tell] = useState<readonly string[]>([]);
  const [is_asking, asking] = useState(false);
  useEffect(() => void openCatalogue(), []);
  const cells = shelf.value.get("cell") ?? [];

  const begin = async () => {
    asking(true);
    try {
      const got = await ask({
        verb: "begin",
        options: {
          "--device": devices.filter((one) => one.name || one.draws).map((one) => `${one.name}:${one.volts}:${one.draws}`),
          "--adapter": adapters.filter((one) => one.volts || one.amps).map((one) => `${one.volts}:${one.amps}`),
          ...(outlast ? { "--outlast": [outlast] } : {}),
          ...(cell ? { "--cell": [cell] } : {}),
        },
      }, api.begun);
      if (got.answer) change(got.answer.text, "the first sheet");
      else tell(got.problems.length > 0 ? got.problems.map((one) => `${one.text} ${one.remedy}`.trim()) : ["No sheet came of it."]);
    } catch (error) {
      tell([error instanceof Error ? error.message : String(error)]);
    } finally {
      asking(false);
    }
  };
  const patch = <T,>(all: readonly T[], i: number, more: Partial<T>) => all.map((one, k) => (k === i ? { ...one, ...more } : one));
  const entry = (label: string, id: string, value: string, example: string, set: (text: string) => void) => (
    <span class="question">
      <label for={id}>{label}</label>
      <input id={id} type="text" value={value} placeholder={example} autocomplete="off" spellcheck={false}
        onInput={(event) => set(event.currentTarget.value)} />
    </span>
  );

  return (
    <form class="begin" onSubmit={(event) => { event.preventDefault(); void begin(); }}>
      <header class="title">
        <h1>A new build in {props.folder}</h1>
        <p class="needs">Four questions make a first sheet that runs; everything in it can be changed afterwards. Values carry their unit, as on the label: <em>12 V</em>, <em>8 W</em>, <em>650 mA</em>, <em>4 h</em>.</p>
      </header>
      <Section id="devices" title="What is carried" aside="Each device, the voltage it wants, and what it draws: from its label, or better from a meter.">
        {devices.map((one, i) => (
          <fieldset key={i}>
            <legend>Device {i + 1}</legend>
            {entry("name", `device-${i}-name`, one.name, "router", (name) => setDevices(patch(devices, i, { name })))}
            {entry("voltage", `device-${i}-volts`, one.volts, "12 V", (volts) => setDevices(patch(devices, i, { volts })))}
            {entry("draws", `device-${i}-draws`, one.draws, "8 W", (draws) => setDevices(patch(devices, i, { draws })))}
            {devices.length > 1 && <button type="button" onClick={() => setDevices(devices.filter((_, k) => k !== i))}>Leave out device {i + 1}</button>}
          </fieldset>
        ))}
        <p class="actions"><button type="button" onClick={() => setDevices([...devices, { name: "", volts: "", draws: "" }])}>One more device</button></p>
      </Section>
      <Section id="adapters" title="What feeds it" aside="The mains adapters that are there, as their labels say: output voltage and current. They stay closed.">
        {adapters.map((one, i) => (
          <fieldset key={i}>
            <legend>Adapter {i + 1}</legend>
            {entry("voltage", `adapter-${i}-volts`, one.volts, "12 V", (volts) => setAdapters(patch(adapters, i, { volts })))}
            {entry("current", `adapter-${i}-amps`, one.amps, "1.5 A", (amps) => setAdapters(patch(adapters, i, { amps })))}
            {adapters.length > 1 && <button type="button" onClick={() => setAdapters(adapters.filter((_, k) => k !== i))}>Leave out adapter {i + 1}</button>}
          </fieldset>
        ))}
        <p class="actions"><button type="button" onClick={() => setAdapters([...adapters, { volts: "", amps: "" }])}>One more adapter</button></p>
      </Section>
      <Section id="howlong" title="For how long" aside="The longest outage it should carry the devices through.">
        {entry("outlast", "outlast", outlast, "4 h", setOutlast)}
      </Section>
      <Section id="cells" title="Which cells" aside="A cell from the shelf; its values can be replaced by your own measurements later.">
        <span class="question">
          <label for="cell">cell</label>
          <select id="cell" value={cell} onChange={(event) => setCell(event.currentTarget.value)}>
            <option value="">let the program choose</option>
            {cells.map((one) => <option value={one}>{one}</option>)}
          </select>
        </span>
        <p class="caution">Lithium cells burn. Use matched cells of known origin behind a protection board; read the <a href="#cautions">cautions</a> before you build.</p>
        <p class="actions"><button type="submit" class="main" disabled={is_asking}>Write the first sheet</button></p>
        {trouble.length > 0 && <ul class="trouble" role="alert">{trouble.map((one) => <li>{one}</li>)}</ul>}
      </Section>
    </form>
  );
}
