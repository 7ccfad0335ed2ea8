import { trace } from "../asking";
import { goToInstant, instant, nearestInstant, now_s, now_words } from "../chosen";
import { Folded } from "../folded";
import { stateWords } from "../instant_labels";

const STEPS = 10000;

function eventIndices(): number[] {
  const told = trace.value.answer;
  return told ? told.events.map((one) => nearestInstant(told.instants_s, one.at_s)) : [];
}

function toEvent(direction: 1 | -1): void {
  const here = instant.value;
  const ahead = eventIndices().filter((one) => (one - here) * direction > 0);
  if (ahead.length > 0) goToInstant(direction > 0 ? Math.min(...ahead) : Math.max(...ahead));
}

/// The last event at or before the instant, in words.
export function latestEvent() {
  const told = trace.value.answer;
  return told?.events.findLast((one) => one.at_s <= now_s.value + 1e-9) ?? null;
}

function spokenInstant(): string {
  const told = trace.value.answer;
  if (!told) return "";
  const states = told.channels.length > 0
    ? [...new Set(told.states.map((one) => one.place))]
      .flatMap((place) => stateWords(told, place, now_s.value).map((words) => `${place.replace(/^\w+:/, "")} ${words}`)) : [];
  return [now_words.value, ...states.slice(0, 4)].join("; ");
}

const KEYS: Record<string, () => void> = {
  ArrowRight: () => goToInstant(instant.value + 1),
  ArrowUp: () => goToInstant(instant.value + 1),
  ArrowLeft: () => goToInstant(instant.value - 1),
  ArrowDown: () => goToInstant(instant.value - 1),
  PageUp: () => toEvent(1),
  PageDown: () => toEvent(-1),
  Home: () => goToInstant(0),
  End: () => goToInstant(Infinity),
};

/// The time cursor. Arrow keys go from instant to instant, Page keys from event to event.
export function Scrubber(props: { id: string }) {
  const told = trace.value.answer;
  if (!told) return null;
  const folded = new Folded(told);
  const event = latestEvent();
  return (
    <div class="scrubber">
      <label for={props.id} class="unseen">Instant of the story</label>
      <input id={props.id} type="range" min={0} max={STEPS} step={1}
        value={Math.round(folded.share(now_s.value) * STEPS)} aria-valuetext={spokenInstant()}
        onInput={(given) =>
          goToInstant(nearestInstant(told.instants_s, folded.time_s(Number(given.currentTarget.value) / STEPS)))}
        onKeyDown={(given) => {
          const act = KEYS[given.key];
          if (!act || given.ctrlKey || given.altKey) return;
          given.preventDefault();
          act();
        }} />
      <p class="instant-words">
        <b>{now_words.value}</b>
        {event && <span> since {event.at_words}: {event.who} {event.words}</span>}
      </p>
      <p class="actions">
        <button type="button" class="small" onClick={() => toEvent(-1)}>Event before</button>{" "}
        <button type="button" class="small" onClick={() => toEvent(1)}>Next event</button>
      </p>
    </div>
  );
}

