import { useState } from "preact/hooks";
import { hunks } from "../diff";
import { conflict, settle, working } from "../sheet";
import { Section } from "./section";

/// The file was changed elsewhere while this window has changes of its own: both are shown, and
/// nothing is written until the reader has chosen.
export function Conflict() {
  const other = conflict.value;
  if (!other) return null;
  return <Choice key={other.revision + working.value.text.length} mine={working.value.text} theirs={other.text} />;
}

function Choice(props: { mine: string; theirs: string }) {
  const all = hunks(props.mine, props.theirs);
  const [taken, take] = useState<Record<number, "mine" | "theirs">>({});
  const differing = all.map((hunk, i) => ({ hunk, i })).filter(({ hunk }) => !hunk.is_same);
  const together = all.flatMap((hunk, i) =>
    hunk.is_same || (taken[i] ?? "mine") === "mine" ? hunk.mine : hunk.theirs).join("\n");
  const pick = (i: number, side: "mine" | "theirs", words: string, lines: readonly string[]) => (
    <label class="pick">
      <input type="radio" name={`hunk-${i}`} checked={(taken[i] ?? "mine") === side}
        onChange={() => take({ ...taken, [i]: side })} />
      <span>{words}</span>
      <pre>{lines.length > 0 ? lines.join("\n") : "(nothing)"}</pre>
    </label>
  );
  return (
    <Section id="conflict" title="The file differs"
      aside="sheet.toml was changed elsewhere while this window has changes of its own. Nothing is written until you choose.">
      <div role="group" aria-label="Differences">
        {differing.map(({ hunk, i }, n) => (
          <fieldset class="hunk">
            <legend>Difference {n + 1} of {differing.length}</legend>
            {pick(i, "mine", "this page", hunk.mine)}
            {pick(i, "theirs", "the file", hunk.theirs)}
          </fieldset>
        ))}
      </div>
      <p class="actions">
        <button type="button" class="main" onClick={() => settle(together)}>Go on with what is chosen</button>{" "}
        <button type="button" onClick={() => settle(props.mine)}>All of this page</button>{" "}
        <button type="button" onClick={() => settle(props.theirs)}>All of the file</button>
      </p>
      <p class="note">The file is written only when you press Save after that; undo brings this page's text back.</p>
    </Section>
  );
}
