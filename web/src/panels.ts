// The story as panels: which lines stand together, between which bounds.
import type { Channel, Trace } from "./api";

export interface Panel {
  readonly quantity: string;
  readonly title: string;
  readonly unit: string;
  readonly channels: readonly Channel[];
}

const TITLES: [string, string][] = [
  ["charge", "Charge left"],
  ["energy", "Energy left"],
  ["share", "Share"],
  ["voltage", "Voltages"],
  ["current", "Currents"],
  ["power", "Power"],
  ["temperature", "Temperatures"],
];
/// More lines than this in one panel no eye can follow.
const MOST_LINES = 5;

/// Every quantity and unit is a panel.
export function panelsOf(told: Trace): Panel[] {
  return TITLES.flatMap(([quantity, title]) => {
    const units = new Map<string, Channel[]>();
    for (const one of told.channels)
      if (one.quantity === quantity) units.set(one.unit, [...(units.get(one.unit) ?? []), one]);
    return [...units].map(([unit, channels]) => ({ quantity, title, unit, channels }));
  });
}

export const keyOf = (channel: Channel) => `${channel.place}/${channel.name}`;

/// Lines shown until the reader says otherwise: those of parts before those of leads, in the
/// program's order.
export function firstLines(panel: Panel): string[] {
  const parts = panel.channels.filter((one) => one.place.startsWith("part:"));
  const of = parts.length > 0 ? parts : panel.channels;
  return of.slice(0, MOST_LINES).map(keyOf);
}

export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
  readonly decimals: number;
  readonly is_cut: boolean; ///< peaks too narrow to see go beyond it
}

/// A peak that fills less of the width than this, and stands this many times above all else, is cut
/// off and told in words, so that the rest can be read.
const PEAK_WIDTH = 0.02;
const PEAK_HEIGHT = 2.5;

/// The level that is exceeded in a share of the axis only. `room[i]`: how much of the axis instant i
/// stands for.
function levelOf(channels: readonly Channel[], room: readonly number[], share: number): number {
  let level = -Infinity;
  for (const one of channels) {
    const all = one.values.flatMap((value, i) => (value === null ? [] : [[value, room[i] ?? 0] as const]));
    all.sort((a, b) => b[0] - a[0]);
    let above = 0;
    for (const [value, width] of all) {
      above += width;
      if (above >= share) {
        level = Math.max(level, value);
        break;
      }
    }
  }
  return level;
}

/// Bounds on ticks of a 1-2-5 step that hold all values, but for the narrowest peaks.
export function scaleOf(channels: readonly Channel[], room: readonly number[]): Scale {
  let low = Infinity;
  let high = -Infinity;
  for (const one of channels)
    for (const value of one.values)
      if (value !== null) {
        low = Math.min(low, value);
        high = Math.max(high, value);
      }
  if (!(low <= high)) return { from: 0, to: 1, ticks: [0, 1], decimals: 0, is_cut: false };
  const usual = levelOf(channels, room, PEAK_WIDTH);
  const is_cut = usual > 0 && high > PEAK_HEIGHT * usual;
  if (is_cut) high = 1.15 * usual;
  if (low < 0 && low > -0.06 * high) low = 0;
  if (low > 0 && low < 0.45 * high) low = 0;
  const least = Math.max(Math.abs(low), Math.abs(high)) * 0.005 || 1;
  if (high - low < least) {
    low -= least / 2;
    high += least / 2;
  }
  const raw = (high - low) / 3;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = power * ([1, 2, 5, 10].find((one) => one * power >= raw) ?? 10);
  const from = Math.floor(low / step + 1e-9) * step;
  const to = Math.ceil(high / step - 1e-9) * step;
  const ticks: number[] = [];
  for (let i = 0; from + i * step <= to + step / 2; ++i) ticks.push(from + i * step);
  return { from, to, ticks, decimals: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)), is_cut };
}
