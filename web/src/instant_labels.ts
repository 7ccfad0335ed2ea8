// What the drawing says of one instant: words and numbers at the places, and which leads carry.
import type { Channel, Place, Trace } from "./api";
import { figure } from "./words";

const SVG = "http://www.w3.org/2000/svg";
/// A lead that carries less than this share of the most any lead carries in this story is not drawn
/// heavier. A choice of drawing, not of physics.
const SEEN_SHARE = 0.02;
const QUANTITIES = ["voltage", "current", "power", "charge", "share", "energy", "temperature"];
const LETTERS_MM = 2.5;
const LETTER_WIDTH = 0.52;

export interface Said {
  readonly place: string;
  readonly label: string;
  readonly words: string;
}

export const reading = (channel: Channel, index: number): string => {
  const value = channel.values[index];
  return value === null || value === undefined
    ? "not known" : `${figure(value, channel.decimals)}\u00a0${channel.unit}`;
};

export function stateWords(told: Trace, place: string, at_s: number): string[] {
  return told.states
    .filter((one) => one.place === place)
    .flatMap((one) => {
      const span = one.spans.findLast((some) => some.from_s <= at_s && at_s <= some.to_s);
      return span ? [one.label ? `${one.label}: ${span.words}` : span.words] : [];
    });
}

/// Everything the story knows of an instant, as a list to read.
export function saidAt(told: Trace, index: number): Said[] {
  const at_s = told.instants_s[index] ?? 0;
  const states = told.states.flatMap((one) => {
    const span = one.spans.findLast((some) => some.from_s <= at_s && at_s <= some.to_s);
    return span ? [{ place: one.place, label: one.label, words: span.words }] : [];
  });
  const readings = told.channels.map((one) => ({
    place: one.place, label: one.label, words: reading(one, index),
  }));
  return [...states, ...readings];
}

function linesAt(told: Trace, place: string, index: number): string[] {
  const at_s = told.instants_s[index] ?? 0;
  const here = told.channels.filter((one) => one.place === place);
  const firsts = QUANTITIES.flatMap((quantity) => {
    const first = here.find((one) => one.quantity === quantity);
    return first ? [first] : [];
  }).slice(0, 3);
  const numbers = firsts.map((one) => reading(one, index)).join(", ");
  return [...stateWords(told, place, at_s), ...(numbers ? [numbers] : [])];
}

interface Box { left: number; top: number; right: number; bottom: number }
const meet = (a: Box, b: Box) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

function write(into: Element, x: number, y: number, lines: readonly string[], kind: string): void {
  const text = document.createElementNS(SVG, "text");
  text.setAttribute("class", kind);
  text.setAttribute("text-anchor", "middle");
  text.setAttribute("font-size", String(LETTERS_MM));
  lines.forEach((words, i) => {
    const line = document.createElementNS(SVG, "tspan");
    line.setAttribute("x", String(x));
    line.setAttribute("y", String(y + i * LETTERS_MM * 1.2));
    line.textContent = words;
    text.append(line);
  });
  into.append(text);
}

const extent = (x: number, y: number, lines: readonly string[]): Box => {
  const half = Math.max(...lines.map((one) => one.length)) * LETTERS_MM * LETTER_WIDTH / 2;
  return { left: x - half, right: x + half, top: y - LETTERS_MM, bottom: y + (lines.length - 1) * LETTERS_MM * 1.2 + 0.6 };
};

/// The middle of the longest straight piece of a lead.
function middleOf(group: Element): { x: number; y: number; length: number; is_level: boolean } | null {
  let best: { x: number; y: number; length: number; is_level: boolean } | null = null;
  const consider = (x1: number, y1: number, x2: number, y2: number) => {
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length > (best?.length ?? 0))
      best = { x: (x1 + x2) / 2, y: (y1 + y2) / 2, length, is_level: Math.abs(y2 - y1) < 1e-6 };
  };
  for (const line of group.querySelectorAll("polyline:not(.reach)")) {
    const points = (line.getAttribute("points") ?? "").trim().split(/\s+/).map((one) => one.split(",").map(Number));
    for (let i = 1; i < points.length; ++i)
      consider(points[i - 1]?.[0] ?? 0, points[i - 1]?.[1] ?? 0, points[i]?.[0] ?? 0, points[i]?.[1] ?? 0);
  }
  for (const line of group.querySelectorAll("line:not(.reach)")) {
    const at = (name: string) => Number(line.getAttribute(name));
    consider(at("x1"), at("y1"), at("x2"), at("y2"));
  }
  return best;
}

export function labelInstant(svg: SVGSVGElement, places: readonly Place[], told: Trace, index: number): void {
  svg.querySelector(":scope > .instant")?.remove();
  const layer = document.createElementNS(SVG, "g");
  layer.setAttribute("class", "instant");
  layer.setAttribute("aria-hidden", "true");
  const taken: Box[] = places
    .filter((one) => one.what === "part")
    .map((one) => ({ left: one.x_mm, top: one.y_mm, right: one.x_mm + one.w_mm, bottom: one.y_mm + one.h_mm }));

  for (const place of places) {
    if (place.what !== "part") continue;
    const lines = linesAt(told, place.id, index);
    if (lines.length === 0) continue;
    const x = place.x_mm + place.w_mm / 2;
    const y = place.y_mm + place.h_mm + LETTERS_MM + 0.8;
    taken.push(extent(x, y, lines));
    write(layer, x, y, lines, "at-part");
  }

  const currents = told.channels.filter((one) => one.quantity === "current" && one.place.startsWith("lead:"));
  const most = Math.max(0, ...currents.flatMap((one) => one.values.map((value) => Math.abs(value ?? 0))));
  const carried = currents
    .map((one) => ({ one, size: Math.abs(one.values[index] ?? 0) }))
    .sort((a, b) => b.size - a.size);
  for (const { one, size } of carried) {
    const group = svg.querySelector(`[data-lead="${CSS.escape(one.place.slice(5))}"]`);
    if (!group) continue;
    const carries = most > 0 && size >= SEEN_SHARE * most;
    group.classList.toggle("carries", carries);
    const middle = carries ? middleOf(group) : null;
    if (!middle) continue;
    const lines = [reading(one, index)];
    const y = middle.is_level ? middle.y - 0.8 : middle.y;
    const box = extent(middle.x, y, lines);
    if (!middle.is_level || middle.length < box.right - box.left || taken.some((other) => meet(box, other))) continue;
    taken.push(box);
    write(layer, middle.x, y, lines, "at-lead");
  }
  svg.append(layer);
}
