// What the reader looks at: a part or lead of the drawing, and an instant of the story.
import { computed, effect, signal } from "@preact/signals";
import { trace } from "./asking";

export interface Chosen {
  readonly what: "part" | "lead";
  readonly name: string;
}
export const chosen = signal<Chosen | null>(null);

/// Index into the instants of the story.
export const instant = signal(0);

export const now_s = computed(() => {
  const told = trace.value.answer;
  return told?.instants_s[Math.min(instant.value, told.instants_s.length - 1)] ?? 0;
});

/// The instant in the program's words.
export const now_words = computed(() => {
  const told = trace.value.answer;
  if (!told) return "";
  const i = Math.min(instant.value, told.instants_s.length - 1);
  return told.instants[i] ?? `${told.instants_s[i] ?? 0} s`;
});

/// A new story may have other instants: the one nearest in time is taken.
let shown_s = 0;
effect(() => {
  const told = trace.value.answer;
  if (told) instant.value = nearestInstant(told.instants_s, shown_s);
});

export function goToInstant(index: number): void {
  const told = trace.value.answer;
  if (!told) return;
  instant.value = Math.max(0, Math.min(told.instants_s.length - 1, index));
  shown_s = told.instants_s[instant.value] ?? 0;
}

/// Of the instants, which rise, the index of the last one at or before `at_s`.
export function lastInstant(instants_s: readonly number[], at_s: number): number {
  let low = 0;
  let high = instants_s.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((instants_s[middle] ?? 0) <= at_s) low = middle;
    else high = middle - 1;
  }
  return Math.max(0, low);
}

export function nearestInstant(instants_s: readonly number[], at_s: number): number {
  const before = lastInstant(instants_s, at_s);
  const after = Math.min(before + 1, instants_s.length - 1);
  const gap = (i: number) => Math.abs((instants_s[i] ?? 0) - at_s);
  return gap(after) < gap(before) ? after : before;
}
