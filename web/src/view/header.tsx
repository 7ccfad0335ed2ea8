import { prediction, values } from "../asking";
import { hello } from "./page";

const CONTENTS: [string, string][] = [
  ["verdict", "Verdict"],
  ["findings", "What to change"],
  ["build", "The build"],
  ["story", "The outage"],
  ["values", "Every value"],
  ["timelines", "What may happen"],
  ["bands", "How sure"],
  ["faults", "If something breaks"],
  ["text", "The sheet"],
  ["cautions", "Cautions"],
];

const NEED_WORDS: Record<string, string> = {
  outlast: "outlast",
  recharge: "recharge within",
  ambient: "between",
  life: "for",
};

/// Title, and what is asked of the build in one line.
export function Header() {
  const told = values.value.answer;
  const title = told?.head.find((one) => one.path === "sheet.title")?.text || prediction.value.answer?.title || hello.value?.folder || "";
  const needs = told?.needs.filter((need) => need.text !== "" && !need.default) ?? [];
  return (
    <header class="title">
      <h1>{title}</h1>
      {needs.length > 0 && (
        <p class="needs">
          To {needs.map((need, i) => (
            <>
              {i > 0 && ", "}
              {NEED_WORDS[need.key] ?? need.key}{" "}
              <a href={`#value-${need.path}`}>{need.text}</a>
            </>
          ))}
          .
        </p>
      )}
      <nav aria-label="On this page">
        <ol>
          {CONTENTS.map(([id, words]) => <li><a href={`#${id}`}>{words}</a></li>)}
        </ol>
      </nav>
    </header>
  );
}
