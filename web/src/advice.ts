// A change that a finding's advice asks for, where it names one: `f_sea: style = "quick", or ...`.
// An answer that carries its changes is taken at its word; the sentence is the second best.
import type { Change, Finding, Item, Values } from "./api";

const NAMED = /^([\w.-]+): ([\w.]+) = ("[^"]*"|[^,;=]*?)(?: or (?:more|less))?(?:, .*|; .*| if .*| as far .*|\.)$/;

function holder(values: Values, name: string): { item: Item; path: string } | null {
  const bare = name.replace(/^leads\./, "");
  const part = values.parts.find((one) => one.name === name);
  if (part) return { item: part, path: `parts.${name}` };
  const lead = values.leads.find((one) => one.name === bare);
  return lead ? { item: lead, path: `leads.${bare}` } : null;
}

/// What "Apply" would do; null: the advice leaves it to the reader.
export function changeOf(finding: Pick<Finding, "advice" | "changes">, values: Values | null): Change | null {
  const stated = finding.changes[0];
  if (stated) return stated;
  const [, name = "", key = "", said = ""] = NAMED.exec(finding.advice) ?? [];
  if (!values || !said) return null;
  const held = holder(values, name);
  if (!held) return null;
  const known = held.item.values.find((one) => one.key === key);
  const value = said.replace(/^"|"$/g, "");
  if (!known && !said.startsWith('"') && !/^[-+\d]/.test(value)) return null;
  if (known && known.text === value) return null;
  return { path: known?.path ?? `${held.path}.${key}`, value, words: `${name}: ${key} = ${value}` };
}
