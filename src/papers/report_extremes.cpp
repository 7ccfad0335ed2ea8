#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using question::Extremes;
using question::Trial;

namespace {

/// Energies from here on are told in Wh, smaller ones in J: 0.01 Wh.
constexpr double told_in_wh_j = 36.0;

std::string shown(const Extremes& extremes, double value_si) {
  const double size =
      std::max(std::abs(extremes.lowest.value_si), std::abs(extremes.highest.value_si));
  // What is a millionth of the other end is rounding of the solver.
  const double value = std::abs(value_si) < 1e-6 * size ? 0.0 : value_si;
  if (extremes.channel.dimension == quantity::Joule::dimension) {
    return size >= told_in_wh_j ? fmt::format("{:.3g} Wh", value / 3600.0)
                                : fmt::format("{:.3g} J", value);
  }
  return question::show_value(extremes.channel, value);
}

std::string runs_in_words(const std::vector<const Trial*>& trials) {
  std::string words;
  for (std::size_t k = 0; k < trials.size(); ++k) {
    words += fmt::format("{}run {} is {}", k > 0 ? "; " : "", k + 1, trials[k]->words);
  }
  return words.empty() ? words : ": " + words;
}

}  // namespace

void write_extremes(const ReportMatter& matter, Page& page) {
  const std::vector<const Trial*> trials = matter.prediction.trials();
  page.begin_section("extremes", "The most and the least");
  page.paragraph(
      std::string("The lowest and the highest value of everything that was recorded, over all "
                  "runs, with the "
                  "instant and the run") +
      runs_in_words(trials) +
      ". Leads are in the table of wires. Energies are in Wh, those that adapters hold up with in "
      "J.");
  Table table{.caption = "Extremes of voltages, currents and temperatures.",
              .columns = {{"Quantity"},
                          {"Lowest", true},
                          {"When"},
                          {"Run", true},
                          {"Highest", true},
                          {"When"},
                          {"Run", true}},
              .style = Table::Style::Small};
  RowGroup& group = table.groups.emplace_back();
  for (const Extremes& extremes : question::extremes_of(trials)) {
    const run::ChannelInfo& channel = extremes.channel;
    if (channel.part.starts_with("leads.")) continue;
    std::vector<std::string> row{channel.part + " " + channel.name};
    for (const question::Reached* reached : {&extremes.lowest, &extremes.highest}) {
      row.push_back(shown(extremes, reached->value_si));
      row.push_back(question::show_instant(reached->at, trials[reached->trial]->outages));
      row.push_back(std::to_string(reached->trial + 1));
    }
    group.rows.push_back(std::move(row));
  }
  page.table(table);
  page.end_section();
}

}  // namespace tideover::papers
