// The text of the sheet as this window has it, what it was before, and the file it came from.
// The program keeps nothing: this text is the only copy of what is not saved yet.
import { batch, computed, signal } from "@preact/signals";
import type { Edit, Problem } from "./api";
import { editSheet, readSheet, saveSheet, Trouble } from "./door";

export interface Step {
  readonly text: string;
  readonly words: string; ///< what led to it: "pack: cell.capacity = 3 Ah"
  readonly of?: string; ///< steps of the same thing in quick succession are one
  readonly at_ms?: number;
}
/// The file as it was when this window last agreed with it; no revision: there is no file yet.
interface Base {
  readonly text: string;
  readonly revision: string | null;
}
interface Kept {
  working: Step;
  past: readonly Step[];
  future: readonly Step[];
  base: Base;
  started: string;
}

const STEPS_KEPT = 100;
const ONE_MOVE_MS = 1500;
const NOTHING: Step = { text: "", words: "" };

export const working = signal<Step>(NOTHING);
const past = signal<readonly Step[]>([]);
const future = signal<readonly Step[]>([]);
const base = signal<Base>({ text: "", revision: null });
/// Where this window started: what before-and-after compares with.
export const started = signal("");
/// The file as somebody else left it, while this window has changes of its own.
export const conflict = signal<{ text: string; revision: string } | null>(null);
/// What another window of this folder left unsaved.
export const leftOver = signal<{ text: string; at: string } | null>(null);
export const saving = signal<"idle" | "saving" | "failed">("idle");
export const saveTrouble = signal("");
/// Said aloud and shown for a while: what just happened to the text.
export const notice = signal("");

export const isBegun = computed(() => working.value.text !== "" || base.value.revision !== null);
export const isUnsaved = computed(() => working.value.text !== base.value.text);
export const baseText = computed(() => base.value.text);
export const undoWords = computed(() => (past.value.length > 0 ? working.value.words : ""));
export const redoWords = computed(() => future.value[0]?.words ?? "");

let folder = "";
const inWindow = () => `tideover/${folder}`;
const inBrowser = () => `tideover/${folder}/unsaved`;

function keep(): void {
  const kept: Kept = {
    working: working.value,
    past: past.value,
    future: future.value,
    base: base.value,
    started: started.value,
  };
  try {
    sessionStorage.setItem(inWindow(), JSON.stringify(kept));
  } catch {
    sessionStorage.setItem(inWindow(), JSON.stringify({ ...kept, past: [], future: [] }));
  }
  if (!isUnsaved.value) localStorage.removeItem(inBrowser());
  else
    localStorage.setItem(inBrowser(),
      JSON.stringify({ text: working.value.text, at: new Date().toLocaleString() }));
}

function goTo(step: Step, before: readonly Step[], after: readonly Step[]): void {
  batch(() => {
    working.value = step;
    past.value = before.slice(-STEPS_KEPT);
    future.value = after;
  });
  keep();
}

/// A change by the person at the page. What is done to the same `of` at once is one step.
export function change(text: string, words: string, of = ""): void {
  const last = working.value;
  if (text === last.text) return;
  const at_ms = Date.now();
  const is_same_move = of !== "" && last.of === of && at_ms - (last.at_ms ?? 0) < ONE_MOVE_MS;
  if (last.text === "" && started.value === "") started.value = text;
  goTo({ text, words, of, at_ms }, is_same_move ? past.value : [...past.value, last], []);
  notice.value = words;
}

export function undo(): void {
  const last = past.value.at(-1);
  if (!last) return;
  const undone = working.value;
  goTo(last, past.value.slice(0, -1), [undone, ...future.value]);
  notice.value = `Undone: ${undone.words}`;
}

export function redo(): void {
  const [next, ...rest] = future.value;
  if (!next) return;
  goTo(next, [...past.value, working.value], rest);
  notice.value = `Done again: ${next.words}`;
}

export const backToStart = () => change(started.value, "back to where you started");

/// Lets the program change the text; its bytes stay where the edit does not concern them. Where
/// `most_problems` is given and the changed sheet has more, the text stays as it was.
export async function edit(
  edits: readonly Edit[], words: string, most_problems = Infinity, of = "",
): Promise<readonly Problem[]> {
  const from = working.value.text;
  const { text, problems } = await editSheet(from, edits);
  if (working.value.text !== from) return edit(edits, words, most_problems, of);
  if (problems.length <= most_problems) change(text, words, of);
  return problems;
}

/// Opens the folder in this window: what it had before a reload, or the file.
export async function open(name: string): Promise<void> {
  folder = name;
  const file = await readSheet();
  const disk: Base = file ?? { text: "", revision: null };
  const stored = sessionStorage.getItem(inWindow());
  if (stored) {
    const kept = JSON.parse(stored) as Kept;
    batch(() => {
      base.value = kept.base;
      started.value = kept.started;
    });
    goTo(kept.working, kept.past, kept.future);
    meet(disk);
    return;
  }
  batch(() => {
    base.value = disk;
    started.value = disk.text;
    working.value = { text: disk.text, words: "as the file has it" };
  });
  const unsaved = localStorage.getItem(inBrowser());
  if (unsaved) {
    const left = JSON.parse(unsaved) as { text: string; at: string };
    if (left.text === disk.text) localStorage.removeItem(inBrowser());
    else leftOver.value = left;
  }
}

/// The file is `disk` now: follow it, or show both where this window has changes of its own.
function meet(disk: Base): void {
  if (disk.revision === base.value.revision) return;
  if (disk.text === working.value.text) {
    base.value = disk;
    conflict.value = null;
  } else if (!isUnsaved.value) {
    base.value = disk;
    goTo({ text: disk.text, words: "the file, changed elsewhere" },
      [...past.value, working.value], []);
    notice.value = "The file was changed elsewhere; this page shows it as it is now.";
  } else if (disk.revision !== null) {
    conflict.value = { text: disk.text, revision: disk.revision };
  } else {
    // The file is gone: saving writes it anew.
    base.value = { text: "", revision: null };
    notice.value = "The file is gone from its folder. Saving writes it again.";
  }
  keep();
}

const isSaving = () => saving.value === "saving";

/// The file's revision was told. While a save is under way it may be our own.
export async function follow(revision: string | null): Promise<void> {
  if (isSaving() || revision === base.value.revision) return;
  if (conflict.value && revision === conflict.value.revision) return;
  const disk = await readSheet();
  if (!isSaving()) meet(disk ?? { text: "", revision: null });
}

export async function save(): Promise<void> {
  if (saving.value === "saving" || conflict.value || !isUnsaved.value) return;
  const text = working.value.text;
  saving.value = "saving";
  try {
    const done = await saveSheet(text, base.value.revision);
    if (done.is === "differs" && done.revision === null) {
      base.value = { text: "", revision: null };
      notice.value = "The file is gone from its folder. Saving again writes it anew.";
    } else if (done.is === "differs") {
      conflict.value = { text: done.text ?? "", revision: done.revision ?? "" };
    } else {
      base.value = { text, revision: done.revision };
      notice.value = "Saved in sheet.toml.";
    }
    saving.value = "idle";
    keep();
  } catch (error) {
    saving.value = "failed";
    saveTrouble.value = error instanceof Trouble ? error.message : String(error);
  }
}

/// Both texts were seen and this one chosen: it stands on top of the file as it is now.
export function settle(text: string): void {
  const other = conflict.value;
  if (!other) return;
  batch(() => {
    conflict.value = null;
    base.value = other;
  });
  if (text !== working.value.text)
    goTo({ text, words: "put together with the file" }, [...past.value, working.value], []);
  notice.value =
    text === other.text ? "The file's text is taken." : "Put together; not saved yet.";
  keep();
}

export function takeLeftOver(): void {
  const left = leftOver.value;
  leftOver.value = null;
  if (left) change(left.text, "changes of another window");
}

export function dropLeftOver(): void {
  leftOver.value = null;
}
