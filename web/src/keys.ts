// Keys that work anywhere on the page. In a text field Ctrl-Z stays the field's own.
import { redo, save, undo } from "./sheet";

const isWriting = (target: EventTarget | null) =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && target.type !== "range" && target.type !== "checkbox" &&
    target.type !== "radio" && target.value !== target.defaultValue);

export function heedKeys(): void {
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === "s") {
      event.preventDefault();
      if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
      void save();
    } else if ((key === "z" || key === "y") && !isWriting(event.target)) {
      event.preventDefault();
      if (key === "y" || event.shiftKey) redo();
      else undo();
    }
  });
}
