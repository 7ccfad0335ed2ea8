// What is asked of the text, in which order, and what came back. A new text ends every question
// about the old one; what was answered stays on the page until the new answer is there.
import { batch, effect, signal, type Signal } from "@preact/signals";
import type { Check } from "./check";
import * as api from "./api";
import type { Problem } from "./api";
import { ask, isOffered, quickly, Trouble, type Question } from "./door";
import { started, working } from "./sheet";

export interface Asked<T> {
  readonly answer: T | null;
  readonly of: string; ///< the text it answers
  readonly is_quick: boolean;
  readonly status: number;
}
const unasked = { answer: null, of: "", is_quick: false, status: 0 };

export const values = signal<Asked<api.Values>>(unasked);
export const drawing = signal<Asked<api.Drawing>>(unasked);
export const trace = signal<Asked<api.Trace>>(unasked);
export const prediction = signal<Asked<api.Prediction>>(unasked);
export const changeover = signal<Asked<api.Changeover>>(unasked);
/// The verdict on the text this window started with.
export const before = signal<Asked<api.Prediction>>(unasked);

/// What is wrong with the text; while anything is, nothing runs.
export const problems = signal<readonly Problem[]>([]);
/// What is being worked on, in words; empty: nothing.
export const under_way = signal("");
export const failed = signal("");
/// Which timeline the story tells; empty: the program's choice.
export const timeline = signal("");

let round = new AbortController();

/// One question that is refused does not keep the others from being asked.
async function put<T>(
  into: Signal<Asked<T>>, check: Check<T>, question: Question, signal: AbortSignal,
): Promise<void> {
  if (!isOffered(question.verb)) return;
  let got;
  try {
    got = await ask(question, check, signal);
  } catch (error) {
    if (signal.aborted || !(error instanceof Trouble) || error.kind !== "refused") throw error;
    failed.value = `${question.verb}: ${error.problems[0]?.text ?? error.message}`;
    return;
  }
  if (signal.aborted) return;
  batch(() => {
    if (got.problems.length > 0 && got.status === 2) problems.value = got.problems;
    if (got.answer !== null)
      into.value = {
        answer: got.answer,
        of: question.text ?? "",
        is_quick: question.options?.["--quick"] !== undefined,
        status: got.status,
      };
  });
}

function traceOptions(is_quick: boolean): Record<string, readonly string[]> {
  return {
    ...(is_quick ? quickly("trace") : {}),
    ...(timeline.value ? { "--timeline": [timeline.value] } : {}),
  };
}

async function askAll(text: string, signal: AbortSignal): Promise<void> {
  under_way.value = "first figures";
  problems.value = [];
  await Promise.all([
    put(values, api.values, { verb: "values", text }, signal),
    put(prediction, api.prediction, { verb: "predict", text, options: quickly("predict") }, signal),
    put(drawing, api.drawing, { verb: "draw", text }, signal),
  ]);
  if (signal.aborted || problems.value.length > 0) return;
  await put(trace, api.trace, { verb: "trace", text, options: traceOptions(true) }, signal);
  if (signal.aborted) return;
  under_way.value = "the full run";
  await put(prediction, api.prediction, { verb: "predict", text }, signal);
  if (signal.aborted) return;
  under_way.value = "each change of source";
  await put(changeover, api.changeover, { verb: "changeover", text }, signal);
  if (signal.aborted) return;
  under_way.value = "the story in full";
  await put(trace, api.trace, { verb: "trace", text, options: traceOptions(false) }, signal);
  if (signal.aborted) return;
  if (text === started.value) before.value = prediction.value;
  else if (before.value.of !== started.value && started.value !== "") {
    under_way.value = "where you started";
    await put(before, api.prediction, { verb: "predict", text: started.value }, signal);
  }
}

/// Asks everything about the text anew.
export function askAgain(): void {
  round.abort();
  const text = working.value.text;
  if (text === "") return;
  round = new AbortController();
  const { signal } = round;
  failed.value = "";
  askAll(text, signal)
    .catch((error: unknown) => {
      if (signal.aborted) return;
      failed.value = error instanceof Error ? error.message : String(error);
      if (!(error instanceof Trouble)) console.error(error);
    })
    .finally(() => {
      if (!signal.aborted) under_way.value = "";
    });
}

/// From now on every new text is asked about.
export function keepAsking(): void {
  effect(() => {
    void working.value.text;
    askAgain();
  });
}

export function tell(name: string): void {
  if (timeline.value === name) return;
  timeline.value = name;
  const text = working.value.text;
  const { signal } = round;
  put(trace, api.trace, { verb: "trace", text, options: traceOptions(false) }, signal).catch(
    (error: unknown) => {
      if (!signal.aborted) failed.value = error instanceof Error ? error.message : String(error);
    },
  );
}
