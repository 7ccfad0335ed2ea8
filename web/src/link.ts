// Whether the program is there: the page hears of changes of the file as long as it is, and waits
// quietly for it when it is not.
import { signal } from "@preact/signals";
import { askAgain, failed } from "./asking";
import { onNewKey, Trouble, watchSheet } from "./door";
import { follow, save, saving } from "./sheet";

export const link = signal<"opening" | "there" | "away" | "key">("opening");

const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

let wake: (() => void) | null = null;

export async function holdLink(): Promise<never> {
  onNewKey(() => wake?.());
  let wait_ms = 250;
  for (;;) {
    try {
      const was = link.value;
      for await (const revision of watchSheet(new AbortController().signal)) {
        link.value = "there";
        wait_ms = 250;
        await follow(revision);
        if (was !== "there" && failed.value) askAgain();
        if (was !== "there" && saving.value === "failed") void save();
      }
      link.value = "away";
    } catch (error) {
      link.value = error instanceof Trouble && error.kind === "key" ? "key" : "away";
    }
    await Promise.race([pause(wait_ms), new Promise<void>((done) => (wake = done))]);
    wait_ms = Math.min(wait_ms * 1.6, 3000);
  }
}

