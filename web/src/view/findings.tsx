import { useState } from "preact/hooks";
import type { Change, Finding, Judgement } from "../api";
import { changeOf } from "../advice";
import { prediction, values } from "../asking";
import { chosen } from "../chosen";
import { edit } from "../sheet";
import { counted, rankOf } from "../words";
import { Section } from "./section";

/// The part or lead a finding is about, opened in the drawing.
export function PlaceLink(props: { name: string }) {
  const is_lead = props.name.startsWith("leads.");
  const name = props.name.replace(/^leads\./, "");
  if (!name) return null;
  return (
    <a href="#build" onClick={() => (chosen.value = { what: is_lead ? "lead" : "part", name })}>{name}</a>
  );
}

export function Apply(props: { change: Change }) {
  const [trouble, tell] = useState("");
  const { path, value, words } = props.change;
  const apply = async () => {
    try {
      const problems = await edit([{ op: "set", path, value }], words, 0);
      tell(problems[0]?.text ?? "");
    } catch (error) {
      tell(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <span class="apply">
      <button type="button" onClick={() => void apply()}>Apply <span class="what">{words || `${path} = ${value}`}</span></button>
      {trouble && <span role="alert" class="trouble"> Not applied: {trouble}</span>}
    </span>
  );
}

function figures(finding: Finding): string {
  const { measured, limit } = finding;
  if (!measured || !limit) return "";
  return `Comes to ${+measured.value.toPrecision(4)} ${measured.unit}, limit ${+limit.value.toPrecision(4)} ${limit.unit}.`;
}

function One(props: { finding: Finding }) {
  const { finding } = props;
  const change = finding.answer === "holds" ? null : changeOf(finding, values.value.answer);
  const editable = finding.unknown[0];
  return (
    <li class={`finding ${finding.answer}`}>
      <b class={`mark ${finding.answer}`}>{finding.answer}</b>
      <div>
        <h3>{finding.title} <span class="at"><PlaceLink name={finding.part} /></span></h3>
        <p>{finding.sentence}</p>
        {finding.advice && <p class="advice"><span class="to">To change: </span>{finding.advice}</p>}
        {change && <p><Apply change={change} /></p>}
        {!change && editable && (
          <p><a href={`#value-parts.${editable}`}>Enter {editable}</a></p>
        )}
        {finding.caution && <p class="caution">{finding.caution}</p>}
        <details>
          <summary>Why</summary>
          <p>{finding.words}</p>
          <p class="formula">{finding.formula}</p>
          <p class="source">{figures(finding)} Source: {finding.source}.</p>
        </details>
      </div>
    </li>
  );
}

/// What the needs say beside the rules: a need that is not met.
function Need(props: { judgement: Judgement }) {
  const { judgement } = props;
  const change = changeOf({ advice: judgement.remedy, changes: [] }, values.value.answer);
  return (
    <li class={`finding ${judgement.answer}`}>
      <b class={`mark ${judgement.answer}`}>{judgement.answer}</b>
      <div>
        <h3>What is asked of the build: {judgement.about}</h3>
        <p>{judgement.sentence}</p>
        {judgement.remedy && <p class="advice"><span class="to">To change: </span>{judgement.remedy}</p>}
        {change && <p><Apply change={change} /></p>}
      </div>
    </li>
  );
}

function summary(findings: readonly Finding[]): string {
  const of = (answer: string) => findings.filter((one) => one.answer === answer).length;
  const said: string[] = [];
  if (of("fails")) said.push(counted(of("fails"), "fails", "fail"));
  if (of("tight")) said.push(counted(of("tight"), "is tight", "are tight"));
  if (of("unknown")) said.push(counted(of("unknown"), "is unknown", "are unknown"));
  if (of("class")) said.push(counted(of("class"), "is a class", "are classes"));
  said.push(counted(of("holds"), "holds", "hold"));
  return `${counted(findings.length, "rule was asked", "rules were asked")}: ${said.join(", ")}.`;
}

export function Findings() {
  const answer = prediction.value.answer;
  if (!answer) return null;
  const rules = new Set(answer.findings.map((one) => one.rule));
  const needs = answer.verdict.judgements.filter((one) => one.answer !== "holds" && !rules.has(one.about));
  const told = [...answer.findings].sort((a, b) => rankOf(a.answer) - rankOf(b.answer));
  const urgent = told.filter((one) => rankOf(one.answer) <= rankOf("unknown"));
  const classes = told.filter((one) => one.answer === "class");
  const held = told.filter((one) => one.answer === "holds");
  return (
    <Section id="findings" title="What to change" aside={summary(answer.findings)}>
      {urgent.length + needs.length === 0 && <p class="said">Nothing fails and nothing is tight.</p>}
      <ul class="findings">
        {needs.map((one) => <Need judgement={one} />)}
        {urgent.map((one) => <One key={`${one.rule}/${one.part}`} finding={one} />)}
      </ul>
      {classes.length > 0 && (
        <details>
          <summary>{counted(classes.length, "class", "classes")} it falls into: neither good nor bad, with what follows from it</summary>
          <ul class="findings">{classes.map((one) => <One key={`${one.rule}/${one.part}`} finding={one} />)}</ul>
        </details>
      )}
      {held.length > 0 && <Held held={held} />}
    </Section>
  );
}

function Held(props: { held: readonly Finding[] }) {
  const byTitle = new Map<string, Finding[]>();
  for (const one of props.held) byTitle.set(one.title, [...(byTitle.get(one.title) ?? []), one]);
  const [is_open, open] = useState(false);
  return (
    <details onToggle={(event) => open(event.currentTarget.open)}>
      <summary>{counted(props.held.length, "rule holds", "rules hold")}</summary>
      {is_open && (
        <dl class="held">
          {[...byTitle].map(([title, all]) => (
            <div>
              <dt>{title}</dt>
              <dd>{all.map((one, i) => <>{i > 0 && ", "}<PlaceLink name={one.part} /></>)}</dd>
            </div>
          ))}
        </dl>
      )}
    </details>
  );
}
