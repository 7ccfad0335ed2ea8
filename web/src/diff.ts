// Two texts line by line: what they share, and where they differ.

export interface Hunk {
  readonly is_same: boolean;
  readonly mine: readonly string[];
  readonly theirs: readonly string[];
}

/// Longest common subsequence over what is left after the common ends are cut off. Sheets have
/// some hundred lines, so the plain table will do.
export function hunks(mine: string, theirs: string): Hunk[] {
  const a = mine.split("\n");
  const b = theirs.split("\n");
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) ++head;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head &&
    a[a.length - 1 - tail] === b[b.length - 1 - tail]) ++tail;
  const m = a.slice(head, a.length - tail);
  const t = b.slice(head, b.length - tail);

  const width = t.length + 1;
  const longest = new Uint32Array((m.length + 1) * width);
  const at = (i: number, j: number) => longest[i * width + j] ?? 0;
  for (let i = m.length - 1; i >= 0; --i)
    for (let j = t.length - 1; j >= 0; --j)
      longest[i * width + j] =
        m[i] === t[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));

  const made: { is_same: boolean; mine: string[]; theirs: string[] }[] = [];
  const last = (is_same: boolean) => {
    const end = made.at(-1);
    if (end && end.is_same === is_same) return end;
    const next = { is_same, mine: [], theirs: [] };
    made.push(next);
    return next;
  };
  const both = (line: string) => {
    const hunk = last(true);
    hunk.mine.push(line);
    hunk.theirs.push(line);
  };

  for (let i = 0; i < head; ++i) both(a[i] ?? "");
  let i = 0;
  let j = 0;
  while (i < m.length || j < t.length) {
    if (i < m.length && j < t.length && m[i] === t[j]) {
      both(m[i++] ?? "");
      ++j;
    } else if (j >= t.length || (i < m.length && at(i + 1, j) >= at(i, j + 1))) {
      last(false).mine.push(m[i++] ?? "");
    } else {
      last(false).theirs.push(t[j++] ?? "");
    }
  }
  for (let k = a.length - tail; k < a.length; ++k) both(a[k] ?? "");
  return made;
}
