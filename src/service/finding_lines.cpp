#include "service/finding_lines.hpp"

#include <algorithm>
#include <set>
#include <span>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/text.hpp"
#include "finding/counts.hpp"
#include "finding/figures.hpp"

namespace tideover::service {

using finding::Answer;
using finding::Found;

namespace {

void add_further(Tone tone, const std::string& words, std::vector<Line>& lines) {
  lines.push_back({tone, "        " + words});
}

void add_finding(const finding::Finding& finding, std::vector<Line>& lines) {
  lines.push_back({tone_of(finding.answer),
                   fmt::format("{:<8}{}", in_words(finding.answer), finding.sentence)});
  if (const std::string figures = finding::figures_in_words(finding); !figures.empty()) {
    add_further(Tone::Quiet, figures, lines);
  }
  if (finding.advice.empty()) return;
  add_further(Tone::Plain,
              (finding.answer == Answer::Unknown ? "To know it: " : "To change: ") + finding.advice,
              lines);
}

void add_rule(const finding::Rule& rule, std::vector<Line>& lines) {
  add_further(Tone::Quiet, "Rule: " + std::string(rule.words), lines);
  add_further(Tone::Quiet, fmt::format("      {} ({})", rule.formula, rule.source), lines);
  if (!rule.caution.empty()) {
    add_further(Tone::Warning, "Caution: " + std::string(rule.caution), lines);
  }
}

std::string parts_of(std::span<const Found> some) {
  std::vector<std::string> names;
  for (const Found& found : some) {
    if (std::ranges::find(names, found.finding.part) == names.end()) {
      names.push_back(found.finding.part);
    }
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

/// What one rule answers alike: the first few in full, of the others the names. Of what holds the
/// names alone.
void add_alike(std::span<const Found> alike, std::set<const finding::Rule*>& told,
               std::vector<Line>& lines) {
  constexpr std::size_t most_in_full = 3;
  const finding::Rule& rule = *alike.front().rule;
  if (alike.front().finding.answer == Answer::Holds) {
    lines.push_back({Tone::Good, fmt::format("{:<8}{}: {}", in_words(Answer::Holds), rule.title,
                                             parts_of(alike))});
    return;
  }
  const std::size_t in_full = alike.size() > most_in_full + 1 ? most_in_full : alike.size();
  for (std::size_t k = 0; k < in_full; ++k) {
    add_finding(alike[k].finding, lines);
    if (told.insert(&rule).second) add_rule(rule, lines);
  }
  if (in_full == alike.size()) return;
  add_further(Tone::Plain,
              fmt::format("And {} more by this rule: {}.", alike.size() - in_full,
                          parts_of(alike.subspan(in_full))),
              lines);
}

void add_findings(std::span<const Found> all, std::vector<Line>& lines) {
  std::set<const finding::Rule*> told;
  for (std::size_t first = 0; first < all.size();) {
    std::size_t end = first + 1;
    while (end < all.size() && all[end].rule == all[first].rule &&
           all[end].finding.answer == all[first].finding.answer) {
      ++end;
    }
    add_alike(all.subspan(first, end - first), told, lines);
    first = end;
  }
}

}  // namespace

Tone tone_of(Answer answer) {
  switch (answer) {
    case Answer::Holds: return Tone::Good;
    case Answer::Tight: return Tone::Warning;
    case Answer::Fails: return Tone::Bad;
    case Answer::Classed:
    case Answer::Unknown: break;
  }
  return Tone::Quiet;
}

std::vector<Line> finding_lines(const build::Build& build, const question::Prediction& prediction) {
  const question::Verdict& verdict = prediction.verdict;
  std::vector<Line> lines;
  lines.push_back({Tone::Strong, build.title.empty() ? build.file : build.title});
  if (prediction.is_partial) lines.push_back({Tone::Bad, "Stopped: what follows is partial."});
  lines.push_back({Tone::Plain, fmt::format("{} findings: {}.", verdict.findings.size(),
                                            finding::counts_in_words(verdict.findings))});
  for (const question::Judgement& one : verdict.judgements) {
    if (one.about != question::Matter::Run) continue;
    lines.push_back(
        {tone_of(one.answer), fmt::format("{:<8}{}", in_words(one.answer), one.sentence)});
    if (!one.remedy.empty()) add_further(Tone::Plain, "To change: " + one.remedy, lines);
  }
  add_findings(verdict.findings, lines);
  return lines;
}

}  // namespace tideover::service
