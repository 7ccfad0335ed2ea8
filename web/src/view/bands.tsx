import { signal } from "@preact/signals";
import * as api from "../api";
import { ask } from "../door";
import { working } from "../sheet";
import { Lines } from "./lines";
import { Section } from "./section";

interface Asked {
  readonly of: string;
  readonly share: number;
  readonly words: string;
  readonly answer: api.Bands | null;
  readonly lines: readonly api.Line[];
  readonly is_asking: boolean;
  readonly trouble: string;
}
const NONE: Asked = { of: "", share: 0, words: "", answer: null, lines: [], is_asking: false, trouble: "" };
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
    const got = await ask({ verb: "bands", text }, api.bands, ended, {
      progress: (share, words) => now({ share, words }),
      partial: (answer) => now({ answer }),
    });
    now({
      answer: got.answer, lines: got.lines, is_asking: false,
      trouble: got.answer ? "" : got.problems[0]?.text ?? "No answer came.",
    });
  } catch (error) {
    now({ is_asking: false, trouble: error instanceof Error ? error.message : String(error) });
  }
}

function cancel(): void {
  stop.abort();
  asked.value = { ...asked.value, is_asking: false, words: "stopped" };
}

export function Progress(props: { share: number; words: string; cancel: () => void; what: string }) {
  return (
    <p class="progress">
      <progress max={1} value={props.share} aria-label={props.what} />{" "}
      <span>{Math.round(100 * props.share)} % {props.words}</span>{" "}
      <button type="button" onClick={props.cancel}>Stop</button>
    </p>
  );
}

/// Chances need no unit: how many of the draws met a need.
function Chances(props: { told: api.Bands }) {
  return (
    <table class="chances">
      <caption>Of {props.told.draws} draws so far</caption>
      <tbody>
        {props.told.chances.map((one) => (
          <tr><th scope="row">{one.need}{one.under && `, ${one.under}`}</th><td class="number">met in {Math.round(100 * one.met_share)} of 100</td></tr>
        ))}
      </tbody>
    </table>
  );
}

export function Bands() {
  const { answer, lines, is_asking, share, words, of, trouble } = asked.value;
  const is_old = of !== "" && of !== working.value.text;
  return (
    <Section id="bands" title="How sure"
      aside="Every value that has a tolerance is drawn anew, again and again, and the build is run each time.">
      {!is_asking && (
        <p class="actions"><button type="button" onClick={() => void begin()}>{of === "" ? "Find out how sure this is" : "Ask again"}</button>{" "}
          {of === "" && <span class="note">Takes from some seconds to minutes; it can be stopped.</span>}</p>
      )}
      {is_asking && <Progress share={share} words={words} cancel={cancel} what="Draws made" />}
      {!is_asking && words === "stopped" && <p role="status">Stopped. What was known by then stands below.</p>}
      {trouble && <p class="trouble" role="alert">{trouble}</p>}
      {is_old && answer && <p class="caution">This is of an earlier text of the sheet.</p>}
      {answer && lines.length === 0 && <Chances told={answer} />}
      <Lines lines={lines} />
    </Section>
  );
}
