import type { Line } from "../api";

interface Block {
  readonly head: string;
  readonly rest: readonly Line[];
}

/// Lines as the terminal has them: an empty one, or one that stands out, begins a block.
function blocksOf(lines: readonly Line[]): Block[] {
  const blocks: { head: string; rest: Line[] }[] = [];
  let is_new = true;
  for (const line of lines) {
    if (line.words.trim() === "") {
      is_new = true;
      continue;
    }
    const is_indented = /^\s/.test(line.words);
    if (is_new || (line.tone === "strong" && !is_indented)) {
      blocks.push(line.tone === "strong" || is_new && !is_indented
        ? { head: line.words, rest: [] } : { head: "", rest: [line] });
      is_new = false;
    } else {
      blocks.at(-1)?.rest.push(line);
    }
  }
  return blocks;
}

/// An answer in the program's own lines.
export function Lines(props: { lines: readonly Line[] }) {
  if (props.lines.length === 0) return null;
  return (
    <div class="lines">
      {blocksOf(props.lines).map((block) => (
        <>
          {block.head && <h3>{block.head}</h3>}
          {block.rest.length > 0 && (
            <ul class="plain">
              {block.rest.map((line) => <li class={`tone-${line.tone}`}>{line.words.trim()}</li>)}
            </ul>
          )}
        </>
      ))}
    </div>
  );
}
