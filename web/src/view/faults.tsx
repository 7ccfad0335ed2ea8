import { signal } from "@preact/signals";
import { useState } from "preact/hooks";
import * as api from "../api";
import { ask } from "../door";
import { working } from "../sheet";
import { counted } from "../words";
import { Progress } from "./bands";
import { PlaceLink } from "./findings";
import { Section } from "./section";

interface Asked {
  readonly of: string;
  readonly share: number;
  readonly words: string;
  readonly answer: api.Faults | null;
  readonly is_asking: boolean;
  readonly trouble: string;
}
const NONE: Asked = { of: "", share: 0, words: "", answer: null, is_asking: false, trouble: "" };
const asked = signal<Asked>(NONE);
let stop = new AbortController();

async function begin(): Promise<void> {
  stop.abort();
  stop = new AbortController();
  const { signal: ended } = stop;
  const text = working.value.text;
  const now = (more: Partial<Asked>) => {
    if (!ended.aborted) asked.value = { ...asked.value, ...more };
  };
  asked.value = { ...NONE, of: text, is_asking: true };
  try {
    const got = await ask({ verb: "faults", text }, api.faults, ended, {
      progress: (share, words) => now({ share, words }),
      partial: (answer) => now({ answer }),
    });
    now({ answer: got.answer, is_asking: false, trouble: got.answer ? "" : got.problems[0]?.text ?? "No answer came." });
  } catch (error) {
    now({ is_asking: false, trouble: error instanceof Error ? error.message : String(error) });
  }
}

function cancel(): void {
  stop.abort();
  asked.value = { ...asked.value, is_asking: false, words: "stopped" };
}

type Fault = api.Faults["faults"][number];

function One(props: { fault: Fault }) {
  const { fault } = props;
  return (
    <li>
      <h4><PlaceLink name={fault.subject} />: {fault.mode}</h4>
      <p class="note">{fault.means}{fault.is_hidden && ". Nobody would notice until the outage."}</p>
      {fault.runs.map((run) => run.effects.length > 0 && (
        <p>{run.onset === "start" ? "Before an outage" : "In the middle of one"}: {run.effects.join("; ")}.</p>
      ))}
      {fault.cheapest_check && <p class="advice"><span class="to">To find it: </span>{fault.cheapest_check.effort}; {fault.cheapest_check.shows}.</p>}
    </li>
  );
}

function Group(props: { severity: string; faults: readonly Fault[]; is_first: boolean }) {
  const [is_open, open] = useState(props.is_first);
  return (
    <details open={props.is_first} onToggle={(event) => open(event.currentTarget.open)}>
      <summary><b>{props.severity}</b>: {counted(props.faults.length, "fault", "faults")}</summary>
      {is_open && <ul class="faults">{props.faults.map((one) => <One fault={one} />)}</ul>}
    </details>
  );
}

export function Faults() {
  const { answer, is_asking, share, words, of, trouble } = asked.value;
  const groups = new Map<string, Fault[]>();
  for (const one of answer?.faults ?? []) groups.set(one.severity, [...(groups.get(one.severity) ?? []), one]);
  return (
    <Section id="faults" title="If something breaks"
      aside="Every part and every lead fails once, in each way it can: before an outage and in the middle of one.">
      {!is_asking && (
        <p class="actions"><button type="button" onClick={() => void begin()}>{of === "" ? "Let everything fail once" : "Ask again"}</button></p>
      )}
      {is_asking && <Progress share={share} words={words} cancel={cancel} what="Faults tried" />}
      {!is_asking && words === "stopped" && <p role="status">Stopped.</p>}
      {trouble && <p class="trouble" role="alert">{trouble}</p>}
      {of !== "" && of !== working.value.text && answer && <p class="caution">This is of an earlier text of the sheet.</p>}
      {answer && answer.faults.some((one) => one.is_hidden) && (
        <p>{counted(answer.faults.filter((one) => one.is_hidden).length, "fault stays", "faults stay")} hidden until the outage comes.</p>
      )}
      {[...groups].map(([severity, faults], i) => <Group key={severity} severity={severity} faults={faults} is_first={i === 0} />)}
      {answer && (
        <p class="caution">Do not try faults out on the bench: shorts of a pack burn. A fuse within hand's breadth of the pack's plus is what stands between the two.</p>
      )}
    </Section>
  );
}
