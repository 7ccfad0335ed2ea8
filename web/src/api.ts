// The shapes of the program's answers, kept by hand beside the verbs of src/service: each check is
// the type. Only what the page shows is named.
import {
  list, nullable, number, object, oneOf, optional, or, text, truth, type Of,
} from "./check";

const texts = list(text);

// What goes wrong -----------------------------------------------------------------------------

export const problem = object({
  file: or(text, ""),
  line: or(number, 0),
  column: or(number, 0),
  length: or(number, 0),
  text,
  remedy: or(text, ""),
  excerpt: or(text, ""),
});
export type Problem = Of<typeof problem>;
const problems = or(list(problem), []);

export const refusal = object({ title: or(text, ""), status: or(number, 0), problems });

// The sheet and its door ----------------------------------------------------------------------

export const hello = object({
  tideover: text,
  folder: text,
  has_sheet: truth,
  verbs: list(object({ name: text, means: text, options: or(list(object({ name: text })), []) })),
});
export type Hello = Of<typeof hello>;

export const sheet = object({ text, revision: text });
export const saved = object({ revision: text });
export const differs = object({ title: or(text, ""), revision: nullable(text), text: nullable(text) });
export const watched = object({ revision: nullable(text) });
export const edited = object({ text, problems });

export type Edit =
  | { op: "set"; path: string; value: string }
  | { op: "unset"; path: string }
  | { op: "add"; path: string; keys: Record<string, unknown> }
  | { op: "remove"; path: string }
  | { op: "rename"; path: string; to: string }
  | { op: "append"; path: string; keys: Record<string, unknown> }
  | { op: "drop"; path: string };

export const tone = oneOf("plain", "strong", "quiet", "good", "warning", "bad");
export const line = object({ tone: or(text, "plain"), words: text });
export type Line = Of<typeof line>;

export const ending = object({
  status: number,
  answer: (given: unknown) => given,
  lines: or(list(line), []),
  problems,
});
export const progress = object({ progress: number, words: or(text, "") });

// predict, check ------------------------------------------------------------------------------

const figure = nullable(object({ value: number, unit: text }));

const change = object({ path: text, value: text, words: or(text, "") });
export type Change = Of<typeof change>;

export const finding = object({
  rule: text,
  title: text,
  part: text,
  answer: text,
  is_harm: or(truth, false),
  measured: figure,
  limit: figure,
  sentence: text,
  advice: text,
  unknown: or(texts, []),
  words: text,
  formula: text,
  source: text,
  caution: text,
  changes: or(list(change), []),
});
export type Finding = Of<typeof finding>;

export const judgement = object({
  about: text,
  answer: text,
  sentence: text,
  remedy: or(text, ""),
});
export type Judgement = Of<typeof judgement>;

export const verdict = object({
  outcome: text,
  states_needs: truth,
  is_met: truth,
  headline: texts,
  judgements: list(judgement),
});

export const prediction = object({
  title: text,
  is_partial: truth,
  verdict,
  findings: list(finding),
  standby: optional(object({ loads_w: number })),
});
export type Prediction = Of<typeof prediction>;

export const changeover = object({
  rides_through: truth,
  headline: texts,
});
export type Changeover = Of<typeof changeover>;

// draw ----------------------------------------------------------------------------------------

const place = object({
  id: text,
  what: oneOf("part", "lead", "join"),
  name: text,
  kind: or(text, ""),
  x_mm: number,
  y_mm: number,
  w_mm: number,
  h_mm: number,
});
export type Place = Of<typeof place>;

const leadRow = object({
  lead: text,
  from: text,
  to: text,
  size: or(text, ""),
  length: or(text, ""),
  colour: or(text, ""),
  carries: or(text, ""),
});
export type LeadRow = Of<typeof leadRow>;

export const drawing = object({
  svg: text,
  width_mm: number,
  height_mm: number,
  places: list(place),
  table: list(leadRow),
});
export type Drawing = Of<typeof drawing>;

// trace ---------------------------------------------------------------------------------------

const channel = object({
  name: text,
  place: text,
  quantity: text,
  unit: text,
  decimals: or(number, 2),
  label: text,
  values: list(nullable(number)),
});
export type Channel = Of<typeof channel>;

const event = object({ at_s: number, at_words: text, who: text, words: text });
export type TraceEvent = Of<typeof event>;

export const trace = object({
  timeline: text,
  circumstance: or(text, ""),
  ends_s: number,
  instants_s: list(number),
  instants: or(texts, []),
  channels: list(channel),
  states: or(
    list(
      object({
        place: text,
        label: text,
        spans: list(object({ from_s: number, to_s: number, words: text })),
      }),
    ),
    [],
  ),
  events: list(event),
  folds: list(object({ from_s: number, to_s: number, share: number })),
  ticks: list(object({ at_s: number, words: text })),
  summary: or(list(line), []),
});
export type Trace = Of<typeof trace>;

// values --------------------------------------------------------------------------------------

const step = object({ choices: or(texts, []), at: or(number, 0) });

const value = object({
  key: text,
  path: text,
  text,
  unit: or(text, ""),
  origin: or(text, ""),
  tolerance: or(text, ""),
  source: or(text, ""),
  means: or(text, ""),
  default: or(truth, false),
  stands: or(text, ""),
  line: or(number, 0),
  takes: or(text, ""),
  least: or(text, ""),
  most: or(text, ""),
  words: or(texts, []),
  step: optional(step),
});
export type Value = Of<typeof value>;

const item = object({
  name: text,
  kind: or(text, ""),
  title: or(text, ""),
  note: or(text, ""),
  values: list(value),
  terminals: or(list((given: unknown, at: string) =>
    typeof given === "string" ? { name: given, means: "" } : object({ name: text, means: or(text, "") })(given, at)), []),
});
export type Item = Of<typeof item>;

const timeline = object({
  name: text,
  values: or(list(value), []),
  stretches: list(object({ values: or(list(value), []), words: or(text, "") })),
});
export type Timeline = Of<typeof timeline>;

export const values = object({
  head: or(list(value), []),
  parts: list(item),
  leads: list(item),
  needs: list(value),
  timelines: or(list(timeline), []),
});
export type Values = Of<typeof values>;

// kinds, shelf --------------------------------------------------------------------------------

export const kinds = object({
  kinds: list(
    object({
      kind: text,
      means: text,
      terminals: list(object({ name: text, means: text, must_be_wired: truth })),
      keys: list(object({ key: text, takes: text, means: text, must_be_said: truth, left_out: text })),
    }),
  ),
});
export type Kinds = Of<typeof kinds>;

export const shelf = object({ lists: list(object({ list: text, rows: texts })) });
export type Shelf = Of<typeof shelf>;

// bands, faults, begin ------------------------------------------------------------------------

const bound = object({ value: number, low: number, high: number });
export const bands = object({
  draws: number,
  draws_meant: number,
  is_partial: or(truth, false),
  chances: list(object({ need: text, under: text, met_share: number, low: number, high: number })),
  bands: list(
    object({
      what: text,
      part: text,
      name: text,
      under: text,
      unit: text,
      p5: nullable(bound),
      p50: nullable(bound),
      p95: nullable(bound),
    }),
  ),
});
export type Bands = Of<typeof bands>;

export const faults = object({
  faults_in_all: number,
  is_partial: or(truth, false),
  faults: list(
    object({
      subject: text,
      mode: text,
      means: text,
      severity: text,
      is_hidden: truth,
      runs: list(object({ onset: text, severity: text, effects: texts })),
      cheapest_check: or(nullable(object({ effort: text, shows: text })), null),
    }),
  ),
});
export type Faults = Of<typeof faults>;

export const begun = object({ text });
