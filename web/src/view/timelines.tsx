import { values } from "../asking";
import { edit } from "../sheet";
import { Section } from "./section";
import { ValueTable } from "./value_row";
import type { Timeline } from "../api";

function One(props: { timeline: Timeline; is_only: boolean }) {
  const { timeline } = props;
  const path = `timelines.${timeline.name}.stretch`;
  const append = (keys: Record<string, string>, words: string) =>
    void edit([{ op: "append", path, keys }], `${timeline.name}: ${words}`);
  return (
    <article class="timeline">
      <h3>{timeline.name}</h3>
      {timeline.values.length > 0 && <ValueTable values={timeline.values} of={timeline.name} />}
      <ol>
        {timeline.stretches.map((stretch, i) => (
          <li>
            {stretch.words && <p>{stretch.words}</p>}
            <ValueTable values={stretch.values} of={`${timeline.name}, stretch ${i + 1}`} />
            {timeline.stretches.length > 1 && (
              <button type="button" class="small"
                onClick={() => void edit([{ op: "drop", path: `${path}.${i + 1}` }], `${timeline.name}: stretch ${i + 1} dropped`)}>
                Drop stretch {i + 1}
              </button>
            )}
          </li>
        ))}
      </ol>
      <p class="actions">
        <button type="button" onClick={() => append({ mains: "absent", lasts: "1 h" }, "an outage added")}>Add an outage of 1 h</button>{" "}
        <button type="button" onClick={() => append({ mains: "present", lasts: "1 h" }, "mains added")}>Add 1 h of mains</button>{" "}
        {!props.is_only && (
          <button type="button" onClick={() => void edit([{ op: "remove", path: `timelines.${timeline.name}` }], `${timeline.name} removed`)}>
            Remove {timeline.name}
          </button>
        )}
      </p>
    </article>
  );
}

export function Timelines() {
  const told = values.value.answer;
  if (!told || told.timelines.length === 0) return null;
  return (
    <Section id="timelines" title="What may happen" aside="Timelines: what the mains, the switches and the devices do, stretch after stretch.">
      {told.timelines.map((one) => <One key={one.name} timeline={one} is_only={told.timelines.length === 1} />)}
    </Section>
  );
}
