#include "service/finding_lines.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "finding/counts.hpp"
#include "quantity/show.hpp"

namespace tideover::service {

using finding::Answer;
using finding::Found;

namespace {

std::string margin_words(const finding::Finding& finding) {
  if (!finding.margin) return {};
  const double share = 100.0 * *finding.margin;
  return share < 0.0 ? fmt::format("exceeded by {:.1f} %", -share)
                     : fmt::format("{:.0f} % left", share);
}

/// "measured 4.12 V, limit 4.2 V, 2 % left"
std::string figures_of(const finding::Finding& finding) {
  std::string text;
  const auto add = [&](const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : ", ") + words;
  };
  constexpr int digits = 4;
  if (finding.measured) {
    add("comes to " +
        quantity::show_si(finding.measured->value_si, finding.measured->measure, digits));
  }
  if (finding.limit) {
    add("limit " + quantity::show_si(finding.limit->value_si, finding.limit->measure, digits));
  }
  add(margin_words(finding));
  return text;
}

void add_finding(const Found& found, std::set<const finding::Rule*>& told,
                 std::vector<Line>& lines) {
  const auto& [rule, finding] = found;
  lines.push_back({tone_of(finding.answer),
                   fmt::format("{:<8}{}", in_words(finding.answer), finding.sentence)});
  const auto further = [&](Tone tone, const std::string& words) {
    lines.push_back({tone, "        " + words});
  };
  if (finding.answer == Answer::Holds) return;
  if (const std::string figures = figures_of(finding); !figures.empty()) {
    further(Tone::Quiet, figures);
  }
  if (!finding.advice.empty()) {
    further(Tone::Plain,
            (finding.answer == Answer::Unknown ? "To know it: " : "To change: ") + finding.advice);
  }
  if (!told.insert(rule).second) return;
  further(Tone::Quiet, "Rule: " + std::string(rule->words));
  further(Tone::Quiet, fmt::format("      {} ({})", rule->formula, rule->source));
  if (!rule->caution.empty()) further(Tone::Warning, "Caution: " + std::string(rule->caution));
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
  }
  std::set<const finding::Rule*> told;
  for (const Found& found : verdict.findings) add_finding(found, told, lines);
  return lines;
}

}  // namespace tideover::service
