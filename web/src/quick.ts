// While a slider moves: the verdict for the value under the thumb. One question at a time; of the
// values that come meanwhile only the newest is asked.
import { signal } from "@preact/signals";
import * as api from "./api";
import { ask, quickly } from "./door";
import { working } from "./sheet";

export interface Tried {
  readonly set: string; ///< "pack.cell.capacity=3 Ah"
  readonly answer: api.Prediction;
}
/// The verdict for a value that is tried and not yet set; null: none is.
export const tried = signal<Tried | null>(null);

let wanted: string | null = null;
let is_asking = false;

async function pump(): Promise<void> {
  if (is_asking) return;
  is_asking = true;
  try {
    while (wanted !== null) {
      const set = wanted;
      wanted = null;
      const got = await ask(
        { verb: "predict", text: working.value.text, set: [set], options: quickly("predict") },
        api.prediction);
      if (got.answer && is_open) tried.value = { set, answer: got.answer };
    }
  } catch {
    // The value is asked again, and trouble told, when it is set.
  } finally {
    is_asking = false;
  }
}

let is_open = false;

export function tryValue(path: string, value: string): void {
  is_open = true;
  wanted = `${path.replace(/^parts\./, "")}=${value}`;
  void pump();
}

/// The thumb was let go: what was tried is set, or not, and asked in full.
export function endTrying(): void {
  is_open = false;
  wanted = null;
  tried.value = null;
}
