import { signal } from "@preact/signals";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Channel, Trace } from "../api";
import { tell, trace, values } from "../asking";
import { goToInstant, instant, nearestInstant, now_s, now_words } from "../chosen";
import { Folded } from "../folded";
import { reading, saidAt } from "../instant_labels";
import { firstLines, keyOf, panelsOf, scaleOf, type Panel } from "../panels";
import { figure } from "../words";
import { Scrubber } from "./scrubber";
import { Section } from "./section";

const LEFT = 46;
const RIGHT = 12;
const HEIGHT = 132;
const TOP = 6;

/// Lines the reader chose, by panel; missing: the first ones.
const chosenLines = signal<Record<string, readonly string[]>>({});

interface Axis {
  readonly width: number;
  readonly room: readonly number[]; ///< share of the axis each instant stands for
  readonly x: (at_s: number) => number;
  readonly folded: Folded;
}

function pathOf(channel: Channel, told: Trace, axis: Axis, y: (value: number) => number): string {
  let path = "";
  let is_pen_up = true;
  channel.values.forEach((value, i) => {
    if (value === null) {
      is_pen_up = true;
      return;
    }
    path += `${is_pen_up ? "M" : "L"}${axis.x(told.instants_s[i] ?? 0).toFixed(1)} ${y(value).toFixed(1)}`;
    is_pen_up = false;
  });
  return path;
}

/// Ticks with room for their words.
function ticksOf(told: Trace, axis: Axis): { x: number; words: string }[] {
  const kept: { x: number; words: string }[] = [];
  let free = -Infinity;
  for (const tick of told.ticks) {
    const half = tick.words.length * 3.4;
    const x = Math.max(half, Math.min(axis.width - half, axis.x(tick.at_s)));
    if (x - half < free) continue;
    free = x + half + 8;
    kept.push({ x: axis.x(tick.at_s), words: tick.words });
  }
  return kept;
}

function Cursor(props: { axis: Axis; height: number }) {
  const x = props.axis.x(now_s.value);
  return <line class="cursor" x1={x} x2={x} y1={0} y2={props.height} />;
}

function highestOf(channels: readonly Channel[]): { channel: Channel; index: number } | null {
  let best: { channel: Channel; index: number } | null = null;
  let most = -Infinity;
  for (const channel of channels)
    channel.values.forEach((value, index) => {
      if (value !== null && value > most) {
        most = value;
        best = { channel, index };
      }
    });
  return best;
}

/// Where events stand; many at one place are one stroke.
function strokes(told: Trace, axis: Axis): number[] {
  const all = told.events.map((one) => Math.round(axis.x(one.at_s)));
  return [...new Set(all)];
}

function Lines(props: { panel: Panel; shown: readonly string[]; told: Trace; axis: Axis }) {
  const { panel, shown, told, axis } = props;
  const channels = panel.channels.filter((one) => shown.includes(keyOf(one)));
  const drawn = useMemo(() => {
    const scale = scaleOf(channels, axis.room);
    const level = (value: number) => (value - scale.from) / (scale.to - scale.from);
    const y = (value: number) => TOP + (HEIGHT - 2 * TOP) * (1 - Math.max(-0.03, Math.min(1.03, level(value))));
    const peak = scale.is_cut ? highestOf(channels) : null;
    return (
      <>
        {scale.ticks.map((tick) => (
          <>
            <line class="rule" x1={LEFT} x2={axis.width - RIGHT} y1={y(tick)} y2={y(tick)} />
            <text class="tick" x={LEFT - 7} y={y(tick) + 4} text-anchor="end">{figure(tick, scale.decimals)}</text>
          </>
        ))}
        {axis.folded.creases().map((share) => {
          const x = LEFT + share * (axis.width - LEFT - RIGHT);
          return <line class="crease" x1={x} x2={x} y1={0} y2={HEIGHT} />;
        })}
        {strokes(told, axis).map((x) => <line class="pole" x1={x} x2={x} y1={TOP} y2={HEIGHT - TOP} />)}
        {channels.map((one, i) => <path class={`series s${i % 6}`} d={pathOf(one, told, axis, y)} />)}
        {peak && (
          <text class="peak" x={Math.min(axis.width - RIGHT - 4, axis.x(told.instants_s[peak.index] ?? 0) + 5)} y={TOP + 11}
            text-anchor={axis.x(told.instants_s[peak.index] ?? 0) > axis.width - 260 ? "end" : "start"}
            dx={axis.x(told.instants_s[peak.index] ?? 0) > axis.width - 260 ? -10 : 0}>
            cut off: {peak.channel.label} up to {reading(peak.channel, peak.index)}
          </text>
        )}
      </>
    );
  }, [told, axis, shown.join()]);
  return <>{drawn}</>;
}

function PanelView(props: { panel: Panel; told: Trace; axis: Axis }) {
  const { panel, told, axis } = props;
  const key = `${panel.quantity}/${panel.unit}`;
  const shown = chosenLines.value[key] ?? firstLines(panel);
  const channels = panel.channels.filter((one) => shown.includes(keyOf(one)));
  const place = (event: PointerEvent) => {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    const share = (event.clientX - box.left - LEFT) / (axis.width - LEFT - RIGHT);
    goToInstant(nearestInstant(told.instants_s, axis.folded.time_s(Math.max(0, Math.min(1, share)))));
  };
  return (
    <figure class="panel">
      <figcaption>
        <b>{panel.title}, {panel.unit}</b>
        <ul class="keys">
          {channels.map((one, i) => (
            <li>
              <svg class="sample" viewBox="0 0 26 8" aria-hidden="true"><path class={`series s${i % 6}`} d="M0 4H26" /></svg>
              {one.label} <span class="reading">{reading(one, instant.value)}</span>
            </li>
          ))}
        </ul>
      </figcaption>
      <svg width={axis.width} height={HEIGHT} role="img" aria-label={`${panel.title} over the story: ${channels.map((one) => one.label).join(", ")}. The list of events and the readings below say the same in words.`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          place(event);
        }}
        onPointerMove={(event) => event.buttons > 0 && place(event)}>
        <Lines panel={panel} shown={shown} told={told} axis={axis} />
        <Cursor axis={axis} height={HEIGHT} />
      </svg>
      {panel.channels.length > channels.length || chosenLines.value[key] ? (
        <details class="choose">
          <summary>Other lines</summary>
          <ul class="columns">
            {panel.channels.map((one) => (
              <li>
                <label>
                  <input type="checkbox" checked={shown.includes(keyOf(one))} onChange={(event) => {
                    const is_on = event.currentTarget.checked;
                    const others = shown.filter((some) => some !== keyOf(one));
                    chosenLines.value = { ...chosenLines.value, [key]: is_on ? [...others, keyOf(one)] : others };
                  }} />{" "}{one.label}
                </label>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </figure>
  );
}

function Axis(props: { told: Trace; axis: Axis }) {
  const { told, axis } = props;
  return (
    <svg class="axis" width={axis.width} height={26} aria-hidden="true">
      <line class="base" x1={LEFT} x2={axis.width - RIGHT} y1={1} y2={1} />
      {ticksOf(told, axis).map((tick) => (
        <>
          <line class="base" x1={tick.x} x2={tick.x} y1={1} y2={6} />
          <text class="tick" x={Math.min(tick.x, axis.width - tick.words.length * 3.4)} y={20} text-anchor="middle">{tick.words}</text>
        </>
      ))}
    </svg>
  );
}

const MOST_EVENTS = 40;

function Events(props: { told: Trace }) {
  const { told } = props;
  const [is_open, open] = useState(false);
  const shown = is_open ? told.events : told.events.slice(0, MOST_EVENTS);
  return (
    <>
      <h3>What happens</h3>
      <ol class="events">
        {shown.map((one) => (
          <li class={one.at_s <= now_s.value + 1e-9 ? "past" : ""}>
            <button type="button" class="link" onClick={() => goToInstant(nearestInstant(told.instants_s, one.at_s))}>{one.at_words}</button>{" "}
            <span>{one.who} {one.words}</span>
          </li>
        ))}
      </ol>
      {shown.length < told.events.length && (
        <p class="actions"><button type="button" onClick={() => open(true)}>All {told.events.length} events</button></p>
      )}
    </>
  );
}

function Instant(props: { told: Trace }) {
  const [is_open, open] = useState(false);
  return (
    <details onToggle={(event) => open(event.currentTarget.open)}>
      <summary>Everything known of this instant, as a list</summary>
      {is_open && (
        <div class="scroll" tabIndex={0} role="region" aria-label={`Readings at ${now_words.value}`}>
          <table>
            <caption>At {now_words.value}</caption>
            <thead><tr><th>Place</th><th>What</th><th>Reading</th></tr></thead>
            <tbody>
              {saidAt(props.told, instant.value).map((one) => (
                <tr><th scope="row">{one.place.replace(/^\w+:/, "")}</th><td>{one.label}</td><td>{one.words}</td></tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}

function useWidth(): [{ current: HTMLDivElement | null }, number] {
  const host = useRef<HTMLDivElement>(null);
  const [width, set] = useState(800);
  useEffect(() => {
    if (!host.current) return;
    const watch = new ResizeObserver(([entry]) => entry && set(Math.max(240, Math.floor(entry.contentRect.width))));
    watch.observe(host.current);
    return () => watch.disconnect();
  }, [host.current]);
  return [host, width];
}

function Told(props: { told: Trace }) {
  const { told } = props;
  const [host, width] = useWidth();
  const axis = useMemo<Axis>(() => {
    const folded = new Folded(told);
    const shares = told.instants_s.map((at_s) => folded.share(at_s));
    const room = shares.map((_, i) => ((shares[i + 1] ?? 1) - (shares[i - 1] ?? 0)) / 2);
    return { width, room, folded, x: (at_s) => LEFT + folded.share(at_s) * (width - LEFT - RIGHT) };
  }, [told, width]);
  return (
    <>
      {told.summary.map((one) => <p class={`tone-${one.tone}`}>{one.words}</p>)}
      <div class="plots" ref={host}>
        {panelsOf(told).map((panel) => <PanelView key={`${panel.quantity}/${panel.unit}`} panel={panel} told={told} axis={axis} />)}
        <Axis told={told} axis={axis} />
        <Scrubber id="instant-plots" />
      </div>
      <Instant told={told} />
      <Events told={told} />
    </>
  );
}

export function Story() {
  const told = trace.value.answer;
  const names = values.value.answer?.timelines.map((one) => one.name) ?? [];
  return (
    <Section id="story" title="The outage" is_wide
      aside={told ? <>{told.circumstance.startsWith(told.timeline) ? told.circumstance : `${told.timeline}, ${told.circumstance}`}. Time is folded: where much happens the scale is finer.</> : ""}>
      {names.length > 1 && (
        <p>
          <label>Timeline{" "}
            <select value={told?.timeline ?? ""} onChange={(event) => tell(event.currentTarget.value)}>
              {names.map((name) => <option value={name}>{name}</option>)}
            </select>
          </label>
        </p>
      )}
      {told === null ? <p class="hint">Being run.</p> : <Told told={told} />}
    </Section>
  );
}
