import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { problems } from "../asking";
import { baseText, change, isUnsaved, working } from "../sheet";
import { hunks } from "../diff";
import { counted } from "../words";
import { Section } from "./section";

/// The sheet itself, for those who would rather write.
export function SheetText() {
  const text = working.value.text;
  const [is_open, open] = useState(false);
  const [is_touched, touch] = useState(false);
  const field = useRef<HTMLTextAreaElement>(null);
  useLayoutEffect(() => {
    if (field.current) field.current.value = text;
    touch(false);
  }, [text, is_open]);
  const unsaved = isUnsaved.value
    ? hunks(baseText.value, text).filter((one) => !one.is_same).length : 0;
  return (
    <Section id="text" title="The sheet"
      aside={unsaved > 0 ? `${counted(unsaved, "place differs", "places differ")} from the file.` : "As the file has it."}>
      <p>All of the above comes from one text file, <code>sheet.toml</code>. Comments and order in it stay as you wrote them.</p>
      <details onToggle={(event) => open(event.currentTarget.open)}>
        <summary>Read and write it here</summary>
        {is_open && (
          <>
            <label class="unseen" for="sheet-text">The sheet's text</label>
            <textarea id="sheet-text" ref={field} rows={30} spellcheck={false} defaultValue={text}
              onInput={(event) => touch(event.currentTarget.value !== text)} />
            <p class="actions">
              <button type="button" class="main" disabled={!is_touched}
                onClick={() => change(field.current?.value ?? text, "the sheet's text")}>Take this text</button>{" "}
              <button type="button" disabled={!is_touched} onClick={() => {
                if (field.current) field.current.value = text;
                touch(false);
              }}>Leave it as it was</button>
            </p>
            {problems.value.map((one) => one.excerpt && <pre class="excerpt">{one.line}: {one.excerpt}</pre>)}
          </>
        )}
      </details>
    </Section>
  );
}
