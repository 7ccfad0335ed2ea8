import type { ComponentChildren } from "preact";

/// A section of the page: its heading stands in the margin where there is one.
export function Section(props: {
  id: string;
  title: string;
  aside?: ComponentChildren;
  is_wide?: boolean;
  children: ComponentChildren;
}) {
  return (
    <section id={props.id} aria-labelledby={`${props.id}-title`} class={props.is_wide ? "wide" : ""}>
      <div class="margin">
        <h2 id={`${props.id}-title`}>{props.title}</h2>
        {props.aside !== undefined && <div class="aside">{props.aside}</div>}
      </div>
      <div class="body">{props.children}</div>
    </section>
  );
}
