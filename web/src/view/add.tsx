import { useState } from "preact/hooks";
import type { Edit, Values } from "../api";
import { kinds, openCatalogue, shelf } from "../catalogue";
import { edit } from "../sheet";
import { chosen } from "../chosen";

const NAME = /^[A-Za-z0-9_-]+$/;

function nameTrouble(name: string, taken: readonly string[]): string {
  if (!NAME.test(name)) return "A name is made of letters, digits, _ and -.";
  return taken.includes(name) ? `${name} is there already.` : "";
}

function Ends(props: { values: Values; id: string; value: string; pick: (end: string) => void; none: string }) {
  return (
    <select id={props.id} value={props.value} onChange={(event) => props.pick(event.currentTarget.value)}>
      <option value="">{props.none}</option>
      {props.values.parts.map((part) => part.terminals.length > 0 && (
        <optgroup label={part.name}>
          {part.terminals.map((end) => <option value={`${part.name}.${end.name}`}>{part.name}.{end.name}</option>)}
        </optgroup>
      ))}
    </select>
  );
}

interface WireText { size: string; length: string; colour: string }
const WIRE: WireText = { size: "0.75 mm2", length: "150 mm", colour: "" };

function Wire(props: { id: string; wire: WireText; set: (wire: WireText) => void }) {
  const entry = (key: keyof WireText, words: string) => (
    <label>{words}{" "}
      <input type="text" size={10} value={props.wire[key]} id={`${props.id}-${key}`}
        onInput={(event) => props.set({ ...props.wire, [key]: event.currentTarget.value })} />
    </label>
  );
  return <span class="wire">{entry("size", "size")} {entry("length", "length")} {entry("colour", "colour")}</span>;
}

const leadKeys = (from: string, to: string, wire: WireText) => ({
  between: JSON.stringify([from, to]),
  size: wire.size,
  length: wire.length,
  ...(wire.colour ? { colour: wire.colour } : {}),
});

const freeName = (wanted: string, taken: readonly string[]) => {
  let name = wanted;
  for (let n = 2; taken.includes(name); ++n) name = `${wanted}_${n}`;
  return name;
};

/// A part from the shelf or of its own, with the leads that join it to the build.
export function AddPart(props: { values: Values }) {
  const { values } = props;
  const [kind, setKind] = useState("");
  const [row, setRow] = useState("");
  const [name, setName] = useState("");
  const [said, setSaid] = useState<Record<string, string>>({});
  const [ends, setEnds] = useState<Record<string, string>>({});
  const [wire, setWire] = useState(WIRE);
  const [trouble, tell] = useState("");
  const means = kinds.value.find((one) => one.kind === kind);
  const rows = shelf.value.get(kind) ?? [];
  const required = row ? [] : means?.keys.filter((one) => one.must_be_said) ?? [];
  const chooseKind = (next: string) => {
    setKind(next);
    setRow("");
    setSaid({});
    setEnds({});
    setName(freeName(next.replaceAll("-", "_"), values.parts.map((one) => one.name)));
  };
  const add = async () => {
    const wrong = nameTrouble(name, values.parts.map((one) => one.name));
    if (wrong) return tell(wrong);
    const edits: Edit[] = [{
      op: "add",
      path: `parts.${name}`,
      keys: {
        kind,
        ...(row ? { from: `shelf:${row}` } : {}),
        ...Object.fromEntries(Object.entries(said).filter(([, text]) => text)),
      },
    }];
    const taken = values.leads.map((one) => one.name);
    for (const [terminal, end] of Object.entries(ends)) {
      if (!end) continue;
      const lead = freeName(`${name}_${terminal}`, taken);
      taken.push(lead);
      edits.push({ op: "add", path: `leads.${lead}`, keys: leadKeys(`${name}.${terminal}`, end, wire) });
    }
    try {
      await edit(edits, `${name} added`);
      tell("");
      chosen.value = { what: "part", name };
      setKind("");
    } catch (error) {
      tell(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <details class="add" onToggle={(event) => event.currentTarget.open && void openCatalogue()}>
      <summary>Add a part</summary>
      <form onSubmit={(event) => { event.preventDefault(); void add(); }}>
        <p>
          <label>Kind{" "}
            <select value={kind} onChange={(event) => chooseKind(event.currentTarget.value)}>
              <option value="">choose</option>
              {kinds.value.map((one) => <option value={one.kind}>{one.kind}</option>)}
            </select>
          </label>{" "}
          {kind && (
            <>
              <label>From the shelf{" "}
                <select value={row} onChange={(event) => setRow(event.currentTarget.value)}>
                  <option value="">its own values</option>
                  {rows.map((one) => <option value={one}>{one}</option>)}
                </select>
              </label>{" "}
              <label>Name <input type="text" value={name} size={16} onInput={(event) => setName(event.currentTarget.value)} /></label>
            </>
          )}
        </p>
        {means && <p class="note">{means.means}</p>}
        {required.length > 0 && (
          <ul class="asked">
            {required.map((key) => (
              <li>
                <label>{key.key} <input type="text" value={said[key.key] ?? ""} size={14}
                  onInput={(event) => setSaid({ ...said, [key.key]: event.currentTarget.value })} /></label>{" "}
                <span class="means">{key.means}; {key.takes}</span>
              </li>
            ))}
          </ul>
        )}
        {means && means.terminals.length > 0 && (
          <fieldset>
            <legend>Its leads</legend>
            <ul class="asked">
              {means.terminals.map((terminal) => (
                <li>
                  <label for={`end-${terminal.name}`}>{terminal.name}</label>{" "}
                  <Ends values={values} id={`end-${terminal.name}`} value={ends[terminal.name] ?? ""} none="not now"
                    pick={(end) => setEnds({ ...ends, [terminal.name]: end })} />{" "}
                  <span class="means">{terminal.means}{terminal.must_be_wired ? "" : "; may stay free"}</span>
                </li>
              ))}
            </ul>
            <Wire id="part-wire" wire={wire} set={setWire} />
          </fieldset>
        )}
        {kind && <p class="actions"><button type="submit" class="main">Add {name}</button></p>}
        {trouble && <p class="trouble" role="alert">{trouble}</p>}
      </form>
    </details>
  );
}

/// A lead between two terminals that are there.
export function AddLead(props: { values: Values }) {
  const { values } = props;
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  const [name, setName] = useState("");
  const [wire, setWire] = useState(WIRE);
  const [trouble, tell] = useState("");
  const add = async () => {
    const taken = values.leads.map((one) => one.name);
    const chosen_name = name || freeName(`${from}_${to}`.replaceAll(".", "_"), taken);
    const wrong = nameTrouble(chosen_name, taken) || (from && to ? "" : "Both ends are needed.");
    if (wrong) return tell(wrong);
    try {
      await edit([{ op: "add", path: `leads.${chosen_name}`, keys: leadKeys(from, to, wire) }], `${chosen_name} added`);
      tell("");
      setFrom("");
      setTo("");
      setName("");
    } catch (error) {
      tell(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <details class="add">
      <summary>Connect two terminals</summary>
      <form onSubmit={(event) => { event.preventDefault(); void add(); }}>
        <p>
          <label for="lead-from">From</label> <Ends values={values} id="lead-from" value={from} none="choose" pick={setFrom} />{" "}
          <label for="lead-to">to</label> <Ends values={values} id="lead-to" value={to} none="choose" pick={setTo} />{" "}
          <label>name <input type="text" size={16} value={name} placeholder="says what it is for"
            onInput={(event) => setName(event.currentTarget.value)} /></label>
        </p>
        <p><Wire id="lead-wire" wire={wire} set={setWire} /></p>
        <p class="actions"><button type="submit" class="main">Add the lead</button></p>
        {trouble && <p class="trouble" role="alert">{trouble}</p>}
      </form>
    </details>
  );
}
