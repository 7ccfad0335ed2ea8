import { useEffect, useState } from "preact/hooks";
import { prediction, problems, under_way } from "../asking";
import { tried } from "../quick";
import { isUnsaved, redo, redoWords, save, saving, undo, undoWords, working, conflict } from "../sheet";
import { outcomeWords } from "../words";

/// The verdict as it stands, and whether it is of what is on the page.
export function standingVerdict() {
  const tryout = tried.value;
  const asked = prediction.value;
  const answer = tryout?.answer ?? asked.answer;
  return {
    answer,
    tried: tryout?.set ?? "",
    is_quick: tryout !== null || asked.is_quick,
    is_old: tryout === null && asked.of !== working.value.text,
    is_broken: problems.value.length > 0,
  };
}

/// Said to screen readers once the verdict stands still for a moment.
function Spoken() {
  const { answer, is_broken } = standingVerdict();
  const words = is_broken
    ? `The sheet needs putting right: ${problems.value[0]?.text ?? ""}`
    : answer ? `${outcomeWords(answer.verdict.outcome)}. ${answer.verdict.headline.join(" ")}` : "";
  const [said, say] = useState("");
  useEffect(() => {
    const timer = setTimeout(() => say(words), 700);
    return () => clearTimeout(timer);
  }, [words]);
  return <p class="unseen" aria-live="polite">{said}</p>;
}

function saveWords(): string {
  if (conflict.value) return "The file differs";
  if (saving.value === "saving") return "Saving";
  return isUnsaved.value ? "Save" : "Saved";
}

/// Always in sight: the verdict in short, undo, redo, save.
export function Standing() {
  const { answer, tried: set, is_broken, is_old, is_quick } = standingVerdict();
  const outcome = is_broken ? "broken" : answer?.verdict.outcome ?? "";
  return (
    <header class="standing">
      <div class="short" data-verdict data-tried={set}>
        {is_broken ? (
          <a href="#verdict"><b class="mark fails">not whole</b> {problems.value[0]?.text}</a>
        ) : answer ? (
          <a href="#verdict">
            <b class={`mark ${outcome}`}>{outcomeWords(outcome)}</b> {answer.verdict.headline[0]}
          </a>
        ) : (
          <span>Reckoning the first figures</span>
        )}
      </div>
      <p class="pace" aria-hidden="true">
        {under_way.value !== "" ? `${under_way.value} \u2026` : is_old && !is_broken ? "of an earlier text" : is_quick ? "first figures" : ""}
      </p>
      <div class="deeds" role="group" aria-label="Your changes">
        <button type="button" disabled={!undoWords.value} onClick={undo}
          title={undoWords.value ? `Undo: ${undoWords.value} (Ctrl-Z)` : "Nothing to undo"}>Undo</button>
        <button type="button" disabled={!redoWords.value} onClick={redo}
          title={redoWords.value ? `Do again: ${redoWords.value} (Ctrl-Shift-Z)` : "Nothing to do again"}>Redo</button>
        <button type="button" class="main" disabled={!isUnsaved.value || saving.value === "saving" || conflict.value !== null}
          onClick={() => void save()} title="Write sheet.toml (Ctrl-S)">{saveWords()}</button>
      </div>
      <Spoken />
    </header>
  );
}
