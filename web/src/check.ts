// Checks at the door: what the server sends is taken apart here once, and a type follows from each
// check. What does not fit is an error that names the place; nothing is guessed.

export type Check<T> = (given: unknown, at: string) => T;
export type Of<C> = C extends Check<infer T> ? T : never;

export class Misfit extends Error {
  constructor(at: string, wanted: string, given: unknown) {
    const shown = JSON.stringify(given) ?? String(given);
    super(`the program's answer has no ${wanted} at ${at || "its top"}, but ${shown.slice(0, 80)}`);
    this.name = "Misfit";
  }
}

export const text: Check<string> = (given, at) => {
  if (typeof given !== "string") throw new Misfit(at, "text", given);
  return given;
};

export const number: Check<number> = (given, at) => {
  if (typeof given !== "number") throw new Misfit(at, "number", given);
  return given;
};

export const truth: Check<boolean> = (given, at) => {
  if (typeof given !== "boolean") throw new Misfit(at, "yes or no", given);
  return given;
};

export const anything: Check<unknown> = (given) => given;

export function oneOf<const W extends readonly string[]>(...words: W): Check<W[number]> {
  return (given, at) => {
    const word = words.find((one) => one === given);
    if (word === undefined) throw new Misfit(at, `word of ${words.join(", ")}`, given);
    return word;
  };
}

export function list<T>(item: Check<T>): Check<T[]> {
  return (given, at) => {
    if (!Array.isArray(given)) throw new Misfit(at, "list", given);
    return given.map((one, i) => item(one, `${at}[${i}]`));
  };
}

/// Null stays null.
export function nullable<T>(check: Check<T>): Check<T | null> {
  return (given, at) => (given === null ? null : check(given, at));
}

/// What is left out or null becomes `otherwise`.
export function or<T>(check: Check<T>, otherwise: T): Check<T> {
  return (given, at) => (given === undefined || given === null ? otherwise : check(given, at));
}

export function optional<T>(check: Check<T>): Check<T | undefined> {
  return (given, at) => (given === undefined || given === null ? undefined : check(given, at));
}

type Shape = Record<string, Check<unknown>>;
export type Shaped<S extends Shape> = { readonly [K in keyof S]: Of<S[K]> };

/// Keys beyond the shape are let go.
export function object<S extends Shape>(shape: S): Check<Shaped<S>> {
  return (given, at) => {
    if (typeof given !== "object" || given === null || Array.isArray(given))
      throw new Misfit(at, "group of values", given);
    const source = given as Record<string, unknown>;
    const made: Record<string, unknown> = {};
    for (const [key, check] of Object.entries(shape))
      made[key] = check(source[key], at ? `${at}.${key}` : key);
    return made as Shaped<S>;
  };
}
