#include <algorithm>

#include <fmt/format.h>

#include "finding/counts.hpp"
#include "papers/report_sections.hpp"
#include "papers/story_plots.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using finding::Answer;
using question::Judgement;
using question::Trial;

namespace {

std::string summary_of(const question::Verdict& verdict) {
  switch (verdict.outcome) {
    case Answer::Holds:
      return verdict.states_needs
                 ? "Every need is met, and no rating that could be judged was exceeded."
                 : "No rating that could be judged was exceeded; needs are not stated.";
    case Answer::Tight: return "Nothing fails; where it is tight is said below.";
    case Answer::Unknown: return "Not everything could be judged; what is missing is said below.";
    case Answer::Classed:
    case Answer::Fails: break;
  }
  return "Something has to change; what, is said below.";
}

void list_judgements(const question::Verdict& verdict, Page& page) {
  if (verdict.judgements.empty() && !verdict.states_needs) {
    page.paragraph("No part is asked for more than it is made for.");
  }
  // What holds is said in the headline, and findings have a section of their own.
  const auto is_worry = [](const Judgement& one) {
    return one.answer != Answer::Holds && one.about != question::Matter::Finding;
  };
  if (!verdict.findings.empty()) {
    page.paragraph(fmt::format("Of {} findings, worst first below, {}.", verdict.findings.size(),
                               finding::counts_in_words(verdict.findings)));
  }
  if (std::ranges::none_of(verdict.judgements, is_worry)) return;
  page.begin_judgements();
  for (const Judgement& judgement : verdict.judgements) {
    if (!is_worry(judgement)) continue;
    const bool asks = judgement.answer == Answer::Unknown;
    page.marked(in_words(judgement.answer), judgement.sentence,
                asks ? Page::Advice::ToKnow : Page::Advice::ToChange, judgement.remedy);
  }
  page.end_judgements();
}

std::string stretch_by_stretch(const Trial& trial) {
  std::string text = "The run, stretch by stretch: ";
  constexpr std::size_t most = 8;
  std::size_t told = 0;
  for (const run::StretchSpan& span : trial.record.stretches) {
    if (told == most) return text + " and so on.";
    if (told++ > 0) text += ", then ";
    text += fmt::format("{} for {}", span.words, question::show_time(span.ends - span.begins));
    if (!span.ended_as_asked) text += " (what it waited for did not come)";
  }
  return text + ".";
}

void write_other(const ReportMatter& matter, const Trial& trial, Page& page) {
  page.heading(fmt::format("Timeline `{}`", trial.record.timeline));
  page.paragraph(stretch_by_stretch(trial));
  if (const auto story = short_story(matter.build, trial)) {
    page.figure(story->figure, story->caption);
  }
}

}  // namespace

void write_verdict(const ReportMatter& matter, Page& page) {
  const question::Verdict& verdict = matter.prediction.verdict;
  page.begin_section("verdict", "Verdict");
  if (matter.prediction.is_partial) {
    page.lead_paragraph("This report is partial: the work was stopped before it was done.");
  }
  for (const std::string& line : verdict.headline) page.lead_paragraph(line);
  page.paragraph(summary_of(verdict));
  list_judgements(verdict, page);
  page.end_section();
}

void write_story(const ReportMatter& matter, Page& page) {
  const question::Prediction& prediction = matter.prediction;
  page.begin_section("story", "The story of the outage");
  page.paragraph(stretch_by_stretch(prediction.usual));
  if (const auto energy = energy_story(prediction)) page.figure(energy->figure, energy->caption);
  for (const Story& story : whole_story(matter.build, prediction.usual)) {
    page.figure(story.figure, story.caption);
  }
  for (const Trial& other : prediction.others) {
    if (question::are_same(other.circumstances, prediction.usual.circumstances)) {
      write_other(matter, other, page);
    }
  }
  page.end_section();
}

}  // namespace tideover::papers
