// The door to the program: requests with the key, answers as checked shapes or as a Trouble.
import type { Check } from "./check";
import {
  differs, edited, ending, hello, progress, refusal, saved, sheet, watched,
  type Edit, type Line, type Problem,
} from "./api";

/// Why there is no answer. `away`: the program is not reached; `key`: it does not take our key.
export class Trouble extends Error {
  constructor(
    readonly kind: "away" | "key" | "refused",
    message: string,
    readonly problems: readonly Problem[] = [],
    readonly status = 0,
  ) {
    super(message);
    this.name = "Trouble";
  }
}

const KEY = "tideover/key";

/// The key stands in the address the terminal printed. It is kept for reloads, and for a second
/// window of the same browser, and taken out of the address so that it is not printed or copied.
function takeKey(): string {
  const given = new URLSearchParams(location.hash.slice(1)).get("key");
  if (given) {
    sessionStorage.setItem(KEY, given);
    localStorage.setItem(KEY, given);
    history.replaceState(null, "", location.pathname);
    return given;
  }
  return sessionStorage.getItem(KEY) ?? localStorage.getItem(KEY) ?? "";
}

let key = takeKey();

/// The address was given anew in this window: another run of the program.
export function onNewKey(then: () => void): void {
  addEventListener("hashchange", () => {
    if (!location.hash.startsWith("#key=")) return;
    key = takeKey();
    then();
  });
}

async function call(path: string, body: unknown, signal?: AbortSignal): Promise<Response> {
  const asks: RequestInit = { headers: { "X-Tideover-Key": key }, cache: "no-store" };
  if (signal) asks.signal = signal;
  if (body !== undefined) {
    asks.method = "POST";
    asks.body = JSON.stringify(body);
    asks.headers = { "X-Tideover-Key": key, "Content-Type": "application/json" };
  }
  let response: Response;
  try {
    response = await fetch(path, asks);
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new Trouble("away", "The program does not answer.");
  }
  if (response.status === 401) throw new Trouble("key", "The program has a new key.", [], 401);
  return response;
}

async function refused(response: Response): Promise<Trouble> {
  let title = `The program refused this (${response.status}).`;
  let problems: readonly Problem[] = [];
  try {
    const told = refusal(await response.json(), "");
    title = told.title || title;
    problems = told.problems;
  } catch {
    // Not a problem in words: the status has to do.
  }
  return new Trouble("refused", title, problems, response.status);
}

async function answer<T>(check: Check<T>, path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  const response = await call(path, body, signal);
  if (!response.ok) throw await refused(response);
  return check(await response.json(), "");
}

const offered = new Set<string>();

/// Which verbs and options this program has is known from its greeting.
export async function askHello() {
  const greeted = await answer(hello, "/api/hello");
  for (const verb of greeted.verbs) {
    offered.add(verb.name);
    for (const option of verb.options) offered.add(`${verb.name} ${option.name}`);
  }
  return greeted;
}

export const isOffered = (verb: string): boolean => offered.has(verb);

/// `--quick` where the verb has it.
export const quickly = (verb: string): Record<string, readonly string[]> =>
  offered.has(`${verb} --quick`) ? { "--quick": [] } : {};

/// Null: there is no sheet yet.
export async function readSheet(): Promise<{ text: string; revision: string } | null> {
  const response = await call("/api/sheet", undefined);
  if (response.status === 404) return null;
  if (!response.ok) throw await refused(response);
  return sheet(await response.json(), "");
}

export type Saving =
  | { is: "saved"; revision: string }
  | { is: "differs"; revision: string | null; text: string | null };

export async function saveSheet(text: string, base: string | null): Promise<Saving> {
  const response = await call("/api/save", { text, base });
  if (response.status === 409) return { is: "differs", ...differs(await response.json(), "") };
  if (!response.ok) throw await refused(response);
  return { is: "saved", ...saved(await response.json(), "") };
}

export const editSheet = (text: string, edits: readonly Edit[], signal?: AbortSignal) =>
  answer(edited, "/api/edit", { text, edits }, signal);

/// The lines of a stream, each parsed; blank ones keep the connection alive and are skipped.
async function* lines(response: Response): AsyncGenerator<unknown> {
  if (!response.body) return;
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      const pieces = (rest + value).split("\n");
      rest = pieces.pop() ?? "";
      for (const piece of pieces) if (piece.trim()) yield JSON.parse(piece);
    }
    if (rest.trim()) yield JSON.parse(rest);
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

/// Revisions of the file as they change, until the connection ends.
export async function* watchSheet(signal: AbortSignal): AsyncGenerator<string | null> {
  const response = await call("/api/watch", undefined, signal);
  if (!response.ok) throw await refused(response);
  for await (const one of lines(response)) yield watched(one, "watch").revision;
}

export interface Question {
  verb: string;
  text?: string;
  set?: readonly string[];
  word?: string;
  options?: Record<string, readonly string[]>;
}

export interface Answer<T> {
  status: number;
  answer: T | null;
  lines: readonly Line[];
  problems: readonly Problem[];
}

export interface Meanwhile<T> {
  progress?: (share: number, words: string) => void;
  partial?: (answer: T) => void;
}

/// Asks a verb. Aborting `signal` closes the connection, which cancels the question.
export async function ask<T>(
  question: Question, check: Check<T>, signal?: AbortSignal, meanwhile: Meanwhile<T> = {},
): Promise<Answer<T>> {
  const response = await call("/api/ask", question, signal);
  if (!response.ok) throw await refused(response);
  try {
    for await (const one of lines(response)) {
      const told = one as Record<string, unknown>;
      if ("status" in told) {
        const last = ending(told, question.verb);
        const is_empty = last.answer === null || last.answer === undefined ||
          (last.status >= 2 && last.status !== 130);
        return { ...last, answer: is_empty ? null : check(last.answer, question.verb) };
      }
      if ("progress" in told) {
        const { progress: share, words } = progress(told, question.verb);
        meanwhile.progress?.(share, words);
      }
      if ("partial" in told) meanwhile.partial?.(check(told["partial"], question.verb));
    }
  } catch (error) {
    if (signal?.aborted || !(error instanceof TypeError)) throw error;
    throw new Trouble("away", "The program stopped in the middle of an answer.");
  }
  throw new Trouble("away", "The program stopped in the middle of an answer.");
}

