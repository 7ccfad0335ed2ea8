// Kinds of parts and rows of the shelf: asked once, when they are first needed.
import { signal } from "@preact/signals";
import * as api from "./api";
import { ask } from "./door";

export const kinds = signal<api.Kinds["kinds"]>([]);
export const shelf = signal<ReadonlyMap<string, readonly string[]>>(new Map());

let is_asked = false;

export async function openCatalogue(): Promise<void> {
  if (is_asked) return;
  is_asked = true;
  try {
    const [all_kinds, all_rows] = await Promise.all([
      ask({ verb: "kinds" }, api.kinds),
      ask({ verb: "shelf" }, api.shelf),
    ]);
    kinds.value = all_kinds.answer?.kinds ?? [];
    shelf.value = new Map(all_rows.answer?.lists.map((one) => [one.list, one.rows]));
  } catch {
    is_asked = false;
  }
}
