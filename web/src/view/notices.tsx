import { effect, signal } from "@preact/signals";
import { link } from "../link";
import { dropLeftOver, isUnsaved, leftOver, notice, saveTrouble, saving, save, takeLeftOver } from "../sheet";

const shown = signal("");
let timer = 0;
effect(() => {
  const words = notice.value;
  if (!words) return;
  clearTimeout(timer);
  shown.value = words;
  timer = setTimeout(() => {
    shown.value = "";
    notice.value = "";
  }, 6000) as unknown as number;
});

function LinkNotice() {
  const kept = isUnsaved.value ? " What you changed is kept in this window." : "";
  if (link.value === "away")
    return <p class="notice">The program is not running, or out of reach. This page goes on as soon as it answers.{kept}</p>;
  if (link.value === "key")
    return (
      <p class="notice">
        The program was started anew and does not know this window. Open the address it printed in
        the terminal, here or in another window.{kept}
      </p>
    );
  return null;
}

/// What the reader has to know at once, above everything else.
export function Notices() {
  const left = leftOver.value;
  return (
    <aside class="notices" aria-label="Notices">
      <div role="status">
        <LinkNotice />
        {saving.value === "failed" && (
          <p class="notice">
            Not saved: {saveTrouble.value}{" "}
            <button type="button" onClick={() => void save()}>Try again</button>
          </p>
        )}
        {shown.value && <p class="notice passing">{shown.value}</p>}
      </div>
      {left && (
        <p class="notice">
          Another window of this folder holds changes that are not saved, of {left.at}.{" "}
          <button type="button" onClick={takeLeftOver}>Take them over</button>{" "}
          <button type="button" onClick={dropLeftOver}>Leave them there</button>
        </p>
      )}
    </aside>
  );
}
