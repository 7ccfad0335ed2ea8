import { useEffect, useRef, useState } from "preact/hooks";
import type { Problem, Value } from "../api";
import { problems } from "../asking";
import { endTrying, tryValue } from "../quick";
import { edit } from "../sheet";

const told = (all: readonly Problem[]) => [all[0]?.text, all[0]?.remedy].filter(Boolean).join(" ");

/// Sets a value of the sheet, unless the sheet would be the worse for it. What is wrong, in words.
async function set(value: Value, of: string, text: string): Promise<string> {
  if (text === value.text) return "";
  try {
    const most = problems.value.length;
    const words = `${of}: ${value.key} = ${text}`;
    const wrong = await edit([{ op: "set", path: value.path, value: text }], words, most, value.path);
    return wrong.length > most ? told(wrong) || "This value cannot be." : "";
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function Slider(props: { value: Value; of: string; choices: readonly string[]; at: number; tell: (trouble: string) => void }) {
  const { value, of, choices, at, tell } = props;
  const [index, move] = useState(at);
  const is_moving = useRef(false);
  useEffect(() => {
    if (!is_moving.current) move(at);
  }, [at, value.text]);
  const shown = choices[index] ?? value.text;
  const release = async () => {
    if (!is_moving.current) return;
    is_moving.current = false;
    endTrying();
    tell(await set(value, of, shown));
  };
  return (
    <input type="range" min={0} max={choices.length - 1} step={1} value={index} class="slider"
      aria-label={`${of}, ${value.key}`} aria-valuetext={shown} data-path={value.path}
      onInput={(event) => {
        const next = Number(event.currentTarget.value);
        is_moving.current = true;
        move(next);
        tryValue(value.path, choices[next] ?? value.text);
        for (const one of document.getElementsByName(value.path))
          if (one instanceof HTMLInputElement) one.value = choices[next] ?? value.text;
      }}
      onChange={() => void release()} onBlur={() => void release()} />
  );
}

/// The text of a value with its unit, as the sheet has it; Enter or leaving it sets it.
function Field(props: { value: Value; of: string; id: string; is_bad: boolean; tell: (trouble: string) => void }) {
  const { value, of, tell } = props;
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (field.current && document.activeElement !== field.current) field.current.value = value.text;
  }, [value.text]);
  const commit = async () => {
    const text = field.current?.value.trim() ?? value.text;
    tell(text === "" ? "" : await set(value, of, text));
  };
  return (
    <input ref={field} id={props.id} name={value.path} type="text" defaultValue={value.text} autocomplete="off"
      spellcheck={false} size={Math.max(8, Math.min(24, value.text.length + 1))}
      aria-invalid={props.is_bad} aria-describedby={props.is_bad ? `${props.id}-bad` : undefined}
      onKeyDown={(event) => {
        if (event.key === "Enter") void commit();
        if (event.key === "Escape" && field.current) {
          field.current.value = value.text;
          tell("");
        }
      }}
      onBlur={() => void commit()} />
  );
}

const wordsFor = (value: Value): readonly string[] =>
  value.words.length > 0 ? value.words : value.takes === "flag" ? ["true", "false"] : [];

function Words(props: { value: Value; of: string; id: string; tell: (trouble: string) => void }) {
  const { value, of, tell } = props;
  return (
    <select id={props.id} name={value.path} value={value.text}
      onChange={async (event) => tell(await set(value, of, event.currentTarget.value))}>
      {!wordsFor(value).includes(value.text) && <option value={value.text}>{value.text || "not said"}</option>}
      {wordsFor(value).map((word) => <option value={word}>{word}</option>)}
    </select>
  );
}

function originWords(value: Value): string {
  if (value.stands === "shelf") return [value.origin, "from the shelf"].filter(Boolean).join(", ");
  return value.default ? "left out; the usual value" : value.origin;
}

/// Two rows of one value must not share an id: the one of the table owns the plain one.
export function ValueRow(props: { value: Value; of: string; where?: string }) {
  const { value, of } = props;
  const [trouble, tell] = useState("");
  const id = `${props.where ?? "value"}-${value.path}`;
  const step = value.step;
  return (
    <tr class={value.default ? "left-out" : ""}>
      <th scope="row">
        <label for={id}>{value.key}</label>
        {value.means && <span class="means">{value.means}</span>}
      </th>
      <td>
        <span class="entry">
          {wordsFor(value).length > 0
            ? <Words value={value} of={of} id={id} tell={tell} />
            : <Field value={value} of={of} id={id} is_bad={trouble !== ""} tell={tell} />}
          {step && step.choices.length > 1 &&
            <Slider value={value} of={of} choices={step.choices} at={step.at} tell={tell} />}
        </span>
        {trouble && <span class="trouble" role="alert" id={`${id}-bad`}>{trouble}</span>}
      </td>
      <td class="origin">
        {value.tolerance && <span class="tolerance">{value.tolerance}</span>}
        {originWords(value)}
        {value.source && <span class="means">{value.source}</span>}
      </td>
    </tr>
  );
}

/// Values of one thing as a table; what the sheet leaves out stands folded below.
export function ValueTable(props: { values: readonly Value[]; of: string; where?: string }) {
  const { values, of } = props;
  const [is_open, open] = useState(false);
  const where = props.where === undefined ? {} : { where: props.where };
  const stated = values.filter((one) => !one.default);
  const left_out = values.filter((one) => one.default);
  const rows = (some: readonly Value[]) => (
    <table class="values">
      <thead class="unseen"><tr><th>Value</th><th>As the sheet has it</th><th>Tolerance and origin</th></tr></thead>
      <tbody>{some.map((one) => <ValueRow key={one.path} value={one} of={of} {...where} />)}</tbody>
    </table>
  );
  return (
    <>
      {stated.length > 0 && rows(stated)}
      {left_out.length > 0 && (
        <details onToggle={(event) => open(event.currentTarget.open)}>
          <summary>{left_out.length} more, left out of the sheet</summary>
          {is_open && rows(left_out)}
        </details>
      )}
    </>
  );
}
