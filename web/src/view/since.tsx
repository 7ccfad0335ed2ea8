import { before, prediction } from "../asking";
import { hunks } from "../diff";
import { backToStart, started, working } from "../sheet";
import type { Prediction } from "../api";
import { Section } from "./section";

const keyOf = (one: { rule: string; part: string; answer: string }) =>
  `${one.rule}/${one.part}/${one.answer}`;

function onlyIn(a: Prediction, b: Prediction) {
  const known = new Set(b.findings.map(keyOf));
  return a.findings.filter((one) => (one.answer === "fails" || one.answer === "tight") && !known.has(keyOf(one)));
}

function Side(props: { title: string; answer: Prediction | null; others: Prediction | null }) {
  const { answer, others } = props;
  return (
    <div>
      <h3>{props.title}</h3>
      {answer === null ? <p>Being reckoned.</p> : (
        <>
          {answer.verdict.headline.map((sentence) => <p>{sentence}</p>)}
          {others && (
            <ul class="plain">
              {onlyIn(answer, others).map((one) => (
                <li><b class={`mark ${one.answer}`}>{one.answer}</b> {one.title}, {one.part}</li>
              ))}
            </ul>
          )}
        </>
      )}
    </div>
  );
}

/// Before and after: this window's text against the one it started with.
export function Since() {
  if (started.value === "" || working.value.text === started.value) return null;
  const changed = hunks(started.value, working.value.text).filter((hunk) => !hunk.is_same);
  const then = before.value.of === started.value ? before.value.answer : null;
  const now = prediction.value.answer;
  return (
    <Section id="since" title="Before and after" aside="Against where you started in this window.">
      <div class="sides">
        <Side title="Before" answer={then} others={now} />
        <Side title="After" answer={now} others={then} />
      </div>
      <details>
        <summary>What differs in the sheet</summary>
        <Changed changed={changed} />
      </details>
      <p class="actions">
        <button type="button" onClick={backToStart}>Back to where you started</button>{" "}
        <button type="button" onClick={() => {
          started.value = working.value.text;
          before.value = prediction.value;
        }}>Compare from here on</button>
      </p>
    </Section>
  );
}

function Changed(props: { changed: ReturnType<typeof hunks> }) {
  return (
    <ul class="changed">
      {props.changed.map((hunk) => (
        <li>
          {hunk.mine.length > 0 && <pre class="was"><span class="unseen">was: </span>{hunk.mine.join("\n")}</pre>}
          {hunk.theirs.length > 0 && <pre class="is"><span class="unseen">is: </span>{hunk.theirs.join("\n")}</pre>}
        </li>
      ))}
    </ul>
  );
}
