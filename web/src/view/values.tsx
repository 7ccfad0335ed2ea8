import { useState } from "preact/hooks";
import type { Item } from "../api";
import { values } from "../asking";
import { edit } from "../sheet";
import { counted } from "../words";
import { AddLead, AddPart } from "./add";
import { Section } from "./section";
import { ValueTable } from "./value_row";

/// Leads that hang on a part.
export const leadsAt = (leads: readonly Item[], part: string) =>
  leads.filter((lead) => lead.terminals.some((end) => end.name.startsWith(`${part}.`)));

export function Remove(props: { item: Item; is_lead: boolean }) {
  const { item, is_lead } = props;
  const leads = is_lead ? [] : leadsAt(values.value.answer?.leads ?? [], item.name);
  const remove = () =>
    edit(
      [
        ...leads.map((lead) => ({ op: "remove" as const, path: `leads.${lead.name}` })),
        { op: "remove", path: `${is_lead ? "leads" : "parts"}.${item.name}` },
      ],
      `${item.name} removed`);
  return (
    <p class="actions">
      <button type="button" onClick={() => void remove()}>
        Remove {item.name}{leads.length > 0 && ` and ${counted(leads.length, "its lead", "its leads").replace("1 ", "")}`}
      </button>
    </p>
  );
}

function Thing(props: { item: Item; is_lead: boolean }) {
  const { item, is_lead } = props;
  const [is_open, open] = useState(false);
  const stated = item.values.filter((one) => !one.default);
  return (
    <details class="thing" onToggle={(event) => open(event.currentTarget.open)}
      data-holds={`${is_lead ? "leads" : "parts"}.${item.name}`}>
      <summary>
        <b>{item.name}</b>{" "}
        <span class="kind">{is_lead ? item.terminals.map((end) => end.name).join(" to ") : item.kind}</span>{" "}
        <span class="gist">{stated.slice(0, 3).map((one) => one.text).join(", ")}</span>
      </summary>
      {is_open && (
        <div class="inside">
          {item.note && <p class="note">{item.note}</p>}
          <ValueTable values={item.values} of={item.name} />
          <Remove item={item} is_lead={is_lead} />
        </div>
      )}
    </details>
  );
}

export function Values() {
  const told = values.value.answer;
  if (!told) return null;
  return (
    <Section id="values" title="Every value"
      aside={<>Type a value with its unit: <em>3 Ah</em>, <em>650 mA +/- 5 %</em>. Enter sets it. Sliders try values; letting go sets one.</>}>
      <h3>What is asked</h3>
      <ValueTable values={told.needs} of="needs" />
      <h3>{counted(told.parts.length, "part", "parts")}</h3>
      <div class="things">{told.parts.map((one) => <Thing key={one.name} item={one} is_lead={false} />)}</div>
      <AddPart values={told} />
      <h3>{counted(told.leads.length, "lead", "leads")}</h3>
      <div class="things">{told.leads.map((one) => <Thing key={one.name} item={one} is_lead />)}</div>
      <AddLead values={told} />
    </Section>
  );
}
