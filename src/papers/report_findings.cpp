#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "finding/figures.hpp"
#include "papers/report_sections.hpp"

namespace tideover::papers {

using finding::Answer;
using finding::Found;

namespace {

std::string figure_words(const std::optional<finding::Figure>& figure) {
  return figure ? finding::in_words(*figure) : "\u2013";
}

/// What holds has room left, where a share says something.
std::string room_words(const finding::Finding& finding) {
  return finding.margin ? fmt::format("{:.0f} %", 100.0 * *finding.margin) : "\u2013";
}

/// "Comes to 4.225 V, limit 4.2 V, exceeded by 0.6 %."
std::string figures_of(const finding::Finding& finding) {
  if (!finding.measured || !finding.limit) return {};
  std::string text = finding::figures_in_words(finding) + ".";
  text.front() = 'C';
  return text;
}

/// A rule is explained at the first of its findings, with its caution.
void write_one(const Found& found, std::set<const finding::Rule*>& told, Page& page) {
  const auto& [rule, finding] = found;
  ShownFinding shown{.mark = in_words(finding.answer), .words = finding.sentence};
  shown.figures = figures_of(finding);
  shown.advice = finding.advice;
  shown.is_to_know = finding.answer == Answer::Unknown;
  if (told.insert(rule).second) {
    shown.rule = rule->words;
    shown.formula = rule->formula;
    shown.source = rule->source;
    shown.caution = rule->caution;
  }
  page.finding(shown);
}

}  // namespace

void write_findings(const ReportMatter& matter, Page& page) {
  const std::vector<Found>& findings = matter.prediction.verdict.findings;
  if (findings.empty()) return;
  page.begin_section("findings", "Findings, worst first");
  page.paragraph(
      "What the rules of the trade say of this build, from the sheet and from all runs. What a "
      "rule asks is said where it is first needed. What holds stands near the end.");
  std::set<const finding::Rule*> told;
  const auto is_news = [](const Found& one) { return one.finding.answer != Answer::Holds; };
  if (std::ranges::any_of(findings, is_news)) {
    page.begin_judgements();
    for (const Found& found : findings) {
      if (is_news(found)) write_one(found, told, page);
    }
    page.end_judgements();
  }
  page.end_section();
}

void write_kept(const ReportMatter& matter, Page& page) {
  Table table{.caption = "What was found, what is allowed, and the room between them.",
              .columns = {{"Part"},
                          {"What was found"},
                          {"Comes to", true},
                          {"Limit", true},
                          {"Left", true}},
              .style = Table::Style::Small};
  for (const Found& found : matter.prediction.verdict.findings) {
    if (found.finding.answer != Answer::Holds) continue;
    const std::string title(found.rule->title);
    if (table.groups.empty() || table.groups.back().title != title) {
      table.groups.push_back({title, {}});
    }
    table.groups.back().rows.push_back(
        {found.finding.part, found.finding.sentence, figure_words(found.finding.measured),
         figure_words(found.finding.limit), room_words(found.finding)});
  }
  if (table.groups.empty()) return;
  page.begin_section("holds", "What holds, rule by rule");
  page.table(table);
  page.end_section();
}

}  // namespace tideover::papers
