import { changeover, failed, problems } from "../asking";
import { Section } from "./section";
import { standingVerdict } from "./standing";
import { working } from "../sheet";

function Broken() {
  return (
    <div class="broken">
      <p class="said">The sheet is not whole yet, so nothing was run.</p>
      <ul class="problems">
        {problems.value.map((one) => (
          <li>
            {one.line > 0 && <span class="where">line {one.line}: </span>}
            {one.text}
            {one.remedy && <span class="advice"> {one.remedy}</span>}
          </li>
        ))}
      </ul>
      <p>Put it right below, or undo the last change. The figures further down are those of the last whole sheet.</p>
    </div>
  );
}

export function Verdict() {
  const { answer, is_quick, is_old, is_broken, tried } = standingVerdict();
  const changes = changeover.value;
  return (
    <Section id="verdict" title="Verdict"
      aside={is_broken ? "" : tried ? "While you move the slider: first figures, bursts of the devices taken as their mean."
        : is_quick ? "First figures; the full run is on its way." : ""}>
      {is_broken && <Broken />}
      {failed.value && <p class="caution">The answer did not come: {failed.value}</p>}
      {answer && !is_broken && (
        <div class={`sentences ${is_old ? "old" : ""}`}>
          {answer.verdict.headline.map((sentence, i) => <p class={i === 0 ? "said first" : "said"}>{sentence}</p>)}
          {changes.answer && changes.of === working.value.text && !tried &&
            changes.answer.headline.map((sentence) => <p class="said">{sentence}</p>)}
          {answer.is_partial && <p>Partial: not all runs came to their end.</p>}
        </div>
      )}
      <p class="beware">
        Work below 60 V DC only. Lithium cells burn: read the <a href="#cautions">cautions</a> before
        you build. This is help with computing, no approval.
      </p>
    </Section>
  );
}
