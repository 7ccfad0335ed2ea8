// The folded time axis: consecutive stretches of time, each at its own scale.
import type { Trace } from "./api";

export class Folded {
  private readonly stretches: { from_s: number; to_s: number; from: number; to: number }[] = [];

  constructor(told: Pick<Trace, "folds" | "ends_s">) {
    const folds = told.folds.length > 0 ? told.folds : [{ from_s: 0, to_s: told.ends_s, share: 1 }];
    const whole = folds.reduce((sum, fold) => sum + fold.share, 0) || 1;
    let from = 0;
    for (const fold of folds) {
      const to = from + fold.share / whole;
      this.stretches.push({ from_s: fold.from_s, to_s: fold.to_s, from, to });
      from = to;
    }
  }

  /// Place on the axis, 0 to 1.
  share(at_s: number): number {
    for (const one of this.stretches)
      if (at_s <= one.to_s) {
        const span = one.to_s - one.from_s;
        const part = span > 0 ? (Math.max(at_s, one.from_s) - one.from_s) / span : 0;
        return one.from + part * (one.to - one.from);
      }
    return 1;
  }

  time_s(share: number): number {
    for (const one of this.stretches)
      if (share <= one.to) {
        const span = one.to - one.from;
        const part = span > 0 ? (Math.max(share, one.from) - one.from) / span : 0;
        return one.from_s + part * (one.to_s - one.from_s);
      }
    return this.stretches.at(-1)?.to_s ?? 0;
  }

  /// Where one scale ends and the next begins.
  creases(): number[] {
    return this.stretches.slice(1).map((one) => one.from);
  }
}
