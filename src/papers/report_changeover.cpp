#include <algorithm>

#include <fmt/format.h>

#include "papers/changeover_plots.hpp"
#include "papers/report_sections.hpp"
#include "quantity/show.hpp"
#include "question/changeover_phrases.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using quantity::show;
using question::Changeover;
using question::Passage;
using Outcome = Passage::Outcome;

namespace {

constexpr std::string_view dash = "\u2013";

std::string lowest_of(const Passage& passage) {
  if (!passage.falls()) return "never lower";
  return fmt::format("{} after {}", show(passage.lowest),
                     question::show_after(passage.lowest_after));
}

std::vector<std::string> row_of(const Changeover& change, std::size_t load) {
  const Passage& worst = change.worst(load);
  const std::string ranges = fmt::format("{} to {}, rides {}", show(worst.accepts.low),
                                         show(worst.accepts.high), show(worst.accepts.rides));
  if (worst.outcome == Outcome::NotServed || worst.outcome == Outcome::Dark) {
    return {worst.accepts.load,   ranges,
            std::string(dash),    std::string(dash),
            std::string(dash),    verdict_of(worst),
            seen_in(change, load)};
  }
  return {worst.accepts.load,
          ranges,
          fmt::format("{}, {}", show(worst.before), show(worst.draw)),
          lowest_of(worst),
          out_of_range_words(worst),
          verdict_of(worst),
          seen_in(change, load)};
}

Table table_of(const question::Changeovers& changes) {
  Table table{.caption =
                  "What every device sees at its terminals, in the hardest of what was "
                  "tried. Times count from the change.",
              .columns = {{"Device"},
                          {"Accepts"},
                          {"Before"},
                          {"Lowest"},
                          {"Out of range"},
                          {"Outcome"},
                          {"Tried"}},
              .style = Table::Style::Small};
  for (const Changeover& change : changes.changes) {
    RowGroup& group = table.groups.emplace_back();
    group.title = title_of(change);
    if (change.times > 1) group.title += fmt::format(", {} times", change.times);
    for (std::size_t k = 0; k < changes.loads.size(); ++k) group.rows.push_back(row_of(change, k));
  }
  return table;
}

void write_one(const ReportMatter& matter, const Changeover& change, Page& page) {
  page.heading(title_of(change));
  if (const auto story = changeover_figure(matter.build, change)) {
    page.figure(story->figure, story->caption);
  }
  for (const question::HoldUp& answer : change.hold_ups) {
    page.paragraph(fmt::format("The capacitance that would do for {}:", answer.load));
    page.list(sentences_of(answer));
  }
}

}  // namespace

void write_changeover(const ReportMatter& matter, Page& page) {
  const question::Changeovers& changes = matter.changeovers;
  if (changes.loads.empty()) return;
  page.begin_section("changeover", "Changeover");
  for (const std::string& line : headline_of(changes)) page.paragraph(line);
  if (!changes.changes.empty()) {
    page.paragraph(fmt::format(
        "Every change of source that the timelines hold, cells as they are, {}. The mains goes "
        "when it likes: planned changes are tried with every device at its highest and at its "
        "lowest draw too, where these differ.",
        show(changes.circumstances.ambient)));
    page.table(table_of(changes));
  }
  for (const Changeover& change : changes.changes) write_one(matter, change, page);
  page.end_section();
}

}  // namespace tideover::papers
