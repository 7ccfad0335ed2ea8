// Words of the page that depend on how an answer came out.

/// How a verdict's outcome is said in one word or two.
export function outcomeWords(outcome: string): string {
  switch (outcome) {
    case "holds": return "holds";
    case "tight": return "holds, tightly";
    case "fails": return "does not hold";
    case "unknown": return "not known";
    default: return outcome;
  }
}

const RANK = ["fails", "tight", "unknown", "class", "holds"];
export const rankOf = (answer: string) => {
  const rank = RANK.indexOf(answer);
  return rank < 0 ? RANK.length : rank;
};

export function counted(n: number, one: string, many: string): string {
  return `${n} ${n === 1 ? one : many}`;
}

/// A number with the decimals the program asks for; a true minus sign.
export function figure(value: number, decimals: number): string {
  const text = value.toFixed(Math.max(0, Math.min(9, decimals)));
  return (Number(text) === 0 ? text.replace("-", "") : text).replace("-", "\u2212");
}
