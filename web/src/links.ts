// Links within the page: what they lead to may be folded away, and is unfolded first.

function follow(id: string): void {
  if (!id.startsWith("value-")) return;
  const [room = "", name = ""] = id.slice("value-".length).split(".");
  const thing = document.querySelector(`[data-holds="${CSS.escape(`${room}.${name}`)}"]`);
  if (thing instanceof HTMLDetailsElement) thing.open = true;
  // The rows appear once the fold is open.
  setTimeout(() => {
    let field = document.getElementById(id);
    if (!field && thing) {
      for (const inner of thing.querySelectorAll("details")) inner.open = true;
      field = document.getElementById(id);
    }
    (field ?? thing)?.scrollIntoView({ block: "center" });
    field?.focus();
  }, 60);
}

export function heedLinks(): void {
  addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a[href^='#']") : null;
    const id = link?.getAttribute("href")?.slice(1);
    if (id) follow(id);
  });
}
