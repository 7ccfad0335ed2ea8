import { effect } from "@preact/signals";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Drawing, Item, Place } from "../api";
import { drawing, prediction, trace, values } from "../asking";
import { chosen, instant, now_words, type Chosen } from "../chosen";
import { figureOf } from "../figure";
import { labelInstant, reading, stateWords } from "../instant_labels";
import { Scrubber } from "./scrubber";
import { Section } from "./section";
import { ValueTable } from "./value_row";
import { leadsAt, Remove } from "./values";

const SELECTOR = "[data-part], [data-lead]";

function chosenIn(group: Element): Chosen {
  const part = group.getAttribute("data-part");
  return part !== null ? { what: "part", name: part } : { what: "lead", name: group.getAttribute("data-lead") ?? "" };
}

const groupOf = (svg: Element, one: Chosen) => svg.querySelector(`[data-${one.what}="${CSS.escape(one.name)}"]`);

/// Thin lines are hard to hit: each lead gets an unseen wide one to catch the pointer.
function widenReach(svg: SVGSVGElement): void {
  for (const line of svg.querySelectorAll("[data-lead] polyline, [data-lead] line")) {
    const reach = line.cloneNode() as SVGElement;
    for (const name of ["stroke-dasharray", "id"]) reach.removeAttribute(name);
    reach.setAttribute("class", "reach");
    reach.setAttribute("stroke-width", "3");
    line.before(reach);
  }
}

/// The place next to `from` in a direction: near in that direction, little off it.
function neighbour(places: readonly Place[], from: Place, dx: number, dy: number): Place | null {
  const middle = (one: Place) => [one.x_mm + one.w_mm / 2, one.y_mm + one.h_mm / 2] as const;
  const [x, y] = middle(from);
  let best: Place | null = null;
  let least = Infinity;
  for (const one of places) {
    if (one === from || one.what !== from.what) continue;
    const [u, v] = middle(one);
    const ahead = (u - x) * dx + (v - y) * dy;
    const off = Math.abs((u - x) * dy - (v - y) * dx);
    if (ahead > 0.1 && ahead + 2 * off < least) {
      least = ahead + 2 * off;
      best = one;
    }
  }
  return best;
}

const ARROWS: Record<string, [number, number]> = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1],
};

function wire(svg: SVGSVGElement, told: Drawing): void {
  svg.setAttribute("role", "group");
  svg.setAttribute("aria-label", "The build as a drawing. Arrow keys go from part to part, Enter opens one.");
  const groups = Array.from(svg.querySelectorAll<SVGGElement>(SELECTOR));
  const rove = (to: Element) => {
    for (const one of groups) one.setAttribute("tabindex", one === to ? "0" : "-1");
  };
  for (const group of groups) {
    const { what, name } = chosenIn(group);
    const kind = told.places.find((one) => one.id === `${what}:${name}`)?.kind ?? what;
    group.setAttribute("role", "button");
    group.setAttribute("aria-label", `${name}, ${kind || what}`);
    group.setAttribute("tabindex", "-1");
  }
  const first = groups.find((one) => one.hasAttribute("data-part")) ?? groups[0];
  if (first) rove(first);
  const pick = (target: EventTarget | null) => {
    const group = target instanceof Element ? target.closest(SELECTOR) : null;
    if (!group) return;
    rove(group);
    chosen.value = chosenIn(group);
  };
  svg.addEventListener("click", (event) => pick(event.target));
  svg.addEventListener("keydown", (event) => {
    const group = event.target instanceof Element ? event.target.closest(SELECTOR) : null;
    if (!group) return;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      pick(group);
      document.getElementById("inspected")?.focus();
      return;
    }
    const arrow = ARROWS[event.key];
    if (!arrow) return;
    event.preventDefault();
    const { what, name } = chosenIn(group);
    const place = told.places.find((one) => one.id === `${what}:${name}`);
    const next = place && neighbour(told.places, place, ...arrow);
    const target = next && groupOf(svg, { what: what, name: next.name });
    if (target instanceof SVGElement) {
      rove(target);
      target.focus();
    }
  });
}

function Figure(props: { told: Drawing }) {
  const { told } = props;
  const host = useRef<HTMLDivElement>(null);
  const [trouble, tell] = useState("");
  useEffect(() => {
    if (!host.current) return;
    let svg: SVGSVGElement;
    try {
      svg = figureOf(told.svg);
    } catch (error) {
      tell(error instanceof Error ? error.message : String(error));
      return;
    }
    tell("");
    svg.setAttribute("viewBox", svg.getAttribute("viewBox") ?? `0 0 ${told.width_mm} ${told.height_mm}`);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    svg.style.setProperty("--width-mm", String(told.width_mm));
    widenReach(svg);
    wire(svg, told);
    host.current.replaceChildren(svg);
    const end_choice = effect(() => {
      const one = chosen.value;
      for (const group of svg.querySelectorAll(".chosen")) group.classList.remove("chosen");
      if (one) groupOf(svg, one)?.classList.add("chosen");
    });
    const end_instant = effect(() => {
      const story = trace.value.answer;
      if (story) labelInstant(svg, told.places, story, instant.value);
    });
    return () => {
      end_choice();
      end_instant();
    };
  }, [told]);
  return (
    <>
      {trouble && <p class="trouble" role="alert">The drawing is not shown: {trouble}</p>}
      <div class="figure" ref={host} />
    </>
  );
}

function Choose(props: { one: Chosen; words?: string }) {
  return (
    <button type="button" class="link" onClick={() => {
      chosen.value = props.one;
      document.getElementById("inspected")?.focus();
    }}>{props.words ?? props.one.name}</button>
  );
}

function Ends(props: { item: Item; leads: readonly Item[]; is_lead: boolean }) {
  const { item, leads, is_lead } = props;
  if (is_lead)
    return (
      <p>From {item.terminals.map((end, i) => (
        <>{i > 0 && " to "}<Choose one={{ what: "part", name: end.name.split(".")[0] ?? "" }} words={end.name} /></>
      ))}.</p>
    );
  const here = leadsAt(leads, item.name);
  if (here.length === 0) return null;
  return (
    <p>Leads: {here.map((lead, i) => <>{i > 0 && ", "}<Choose one={{ what: "lead", name: lead.name }} /></>)}.</p>
  );
}

function Now(props: { one: Chosen }) {
  const story = trace.value.answer;
  if (!story) return null;
  const place = `${props.one.what}:${props.one.name}`;
  const index = instant.value;
  const said = [
    ...stateWords(story, place, story.instants_s[index] ?? 0),
    ...story.channels.filter((one) => one.place === place).map((one) => `${one.label} ${reading(one, index)}`),
  ];
  if (said.length === 0) return null;
  return <p class="now">At {now_words.value}: {said.join("; ")}.</p>;
}

function Inspector() {
  const one = chosen.value;
  const told = values.value.answer;
  if (!one || !told) return <p class="hint">Choose a part or a lead: its values open here.</p>;
  const is_lead = one.what === "lead";
  const item = (is_lead ? told.leads : told.parts).find((some) => some.name === one.name);
  if (!item) return <p class="hint">{one.name} is not in the sheet.</p>;
  const about = is_lead ? `leads.${one.name}` : one.name;
  const findings = prediction.value.answer?.findings.filter((some) => some.part === about && some.answer !== "holds") ?? [];
  return (
    <div class="inspector" key={`${one.what}:${one.name}`}>
      <h3 id="inspected" tabIndex={-1}>{item.name} <span class="kind">{is_lead ? "lead" : item.kind}</span></h3>
      {item.note && <p class="note">{item.note}</p>}
      <Now one={one} />
      {findings.map((some) => <p><b class={`mark ${some.answer}`}>{some.answer}</b> {some.sentence}</p>)}
      <ValueTable values={item.values} of={item.name} where="beside" />
      <Ends item={item} leads={told.leads} is_lead={is_lead} />
      <Remove item={item} is_lead={is_lead} />
    </div>
  );
}

function Table(props: { told: Drawing }) {
  const [is_open, open] = useState(false);
  return (
    <details onToggle={(event) => open(event.currentTarget.open)}>
      <summary>The drawing as a table: every lead, from where to where</summary>
      {is_open && (
        <div class="scroll" tabIndex={0} role="region" aria-label="Leads of the build">
          <table>
            <thead><tr><th>Lead</th><th>From</th><th>To</th><th>Size</th><th>Length</th><th>Colour</th><th>Carries</th></tr></thead>
            <tbody>
              {props.told.table.map((row) => (
                <tr>
                  <th scope="row"><Choose one={{ what: "lead", name: row.lead }} /></th>
                  <td>{row.from}</td><td>{row.to}</td><td>{row.size}</td><td>{row.length}</td><td>{row.colour}</td><td>{row.carries}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}

export function Bench() {
  const told = drawing.value.answer;
  return (
    <Section id="build" title="The build" is_wide
      aside={trace.value.answer ? <>Numbers are those of the instant chosen in <a href="#story">the outage</a>; leads that carry are drawn heavier.</> : ""}>
      {told === null ? <p class="hint">Being drawn.</p> : (
        <>
          <div class={`bench ${chosen.value ? "open" : ""}`}>
            <Figure told={told} />
            <Inspector />
          </div>
          <Scrubber id="instant-drawing" />
          <Table told={told} />
        </>
      )}
    </Section>
  );
}
