#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "papers/coordination_plot.hpp"
#include "papers/report_sections.hpp"
#include "quantity/show.hpp"
#include "question/coordination_phrases.hpp"

namespace tideover::papers {

using quantity::show;
using question::Coordination;
using question::LeadCover;
using question::LeadShort;
using question::Protection;

namespace {

constexpr std::string_view dash = "\u2013";

std::string_view title_of(Protection protection) {
  switch (protection) {
    case Protection::None: return "Nothing opens it";
    case Protection::Late: return "Opened too late for the lead";
    case Protection::Thin: return "More flows for good than the lead carries";
    case Protection::Board: return "A protection board alone, which is no fuse";
    case Protection::Limit: return "Kept small by what feeds it";
    case Protection::Fuse: break;
  }
  return "Protected by a fuse";
}

std::string opens_words(const LeadShort& one) {
  if (one.guard == question::Guard::Nothing) return "never";
  if (one.guard == question::Guard::Limit) return std::string(dash);
  return one.opens ? show(*one.opens) : "need not";
}

std::vector<std::string> row_of(const LeadCover& cover) {
  const LeadShort& one = cover.shorts.front();
  std::vector<std::string> sources;
  for (const LeadShort& each : cover.shorts) {
    if (std::ranges::find(sources, each.source->name) == sources.end()) {
      sources.push_back(each.source->name);
    }
  }
  return {cover.lead->name,
          fmt::format("{}", fmt::join(sources, ", ")),
          question::current_words(one.current),
          device_words(one),
          show(one.judged_at),
          opens_words(one),
          one.stands ? show(*one.stands) : "for good"};
}

Table table_of(const Coordination& answer) {
  Table table{.caption =
                  "Every lead that a source can drive current into, shorted at its far end; a "
                  "return at what returns through it. The first source named decides; opening "
                  "times are the latest.",
              .columns = {{"Lead"},
                          {"Fed by"},
                          {"Short circuit", true},
                          {"Protected by"},
                          {"Judged at", true},
                          {"Opens within", true},
                          {"Lead stands", true}},
              .style = Table::Style::Small};
  for (const LeadCover& cover : answer.leads) {
    const std::string title(title_of(cover.protection));
    if (table.groups.empty() || table.groups.back().title != title) {
      table.groups.push_back({.title = title, .rows = {}});
    }
    table.groups.back().rows.push_back(row_of(cover));
  }
  return table;
}

}  // namespace

void write_coordination(const ReportMatter& matter, Page& page) {
  const Coordination answer = question::coordination(matter.build);
  if (answer.leads.empty()) return;
  page.begin_section("coordination", "What protects each lead, and which fuse goes first");
  for (const std::string& sentence : headline_of(answer)) page.paragraph(sentence);
  for (const Story& story : coordination_figures(answer)) {
    page.figure(story.figure, story.caption);
  }
  page.table(table_of(answer));
  page.list(question::coordination_basis());
  page.caution("Shorts and fuses", question::coordination_cautions());
  page.end_section();
}

}  // namespace tideover::papers
