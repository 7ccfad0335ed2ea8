#include <cmath>

#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "part/wire/colour.hpp"
#include "quantity/show.hpp"

namespace tideover::papers {

namespace {

std::string show_terminal(const build::TerminalName& name) {
  return name.part + "." + name.terminal;
}

/// A drop below this is no meter's.
constexpr double least_shown_v = 1e-6;

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

/// Of one run: what it carries, drops and loses. Dashes without a run.
std::vector<std::string> losses_of(const std::vector<finding::LeadLoss>& losses,
                                   const build::Lead& lead) {
  for (const finding::LeadLoss& one : losses) {
    if (one.lead->name != lead.name) continue;
    return {quantity::show(one.lasting), percent(one.ampacity.si()), quantity::show(one.highest),
            one.drop.si() < least_shown_v ? "\u2013" : quantity::show(one.drop, 2),
            watt_hours(one.lost)};
  }
  return {"\u2013", "\u2013", "\u2013", "\u2013", "\u2013"};
}

std::vector<std::string> wire_row(const build::Lead& lead,
                                  const std::vector<finding::LeadLoss>& losses) {
  std::vector<std::string> row{
      lead.name,
      show_terminal(lead.from),
      show_terminal(lead.to),
      quantity::show(lead.wire.size),
      quantity::show(lead.wire.length),
      lead.wire.colour.empty() ? "\u2013" : part::colour_in_words(lead.wire.colour),
      quantity::show(lead.wire.resistance(quantity::Temperature::of_celsius(20.0)))};
  for (std::string& cell : losses_of(losses, lead)) row.push_back(std::move(cell));
  return row;
}

void write_ways(const question::Prediction& prediction, Page& page) {
  std::vector<std::string> ways;
  for (const finding::WayLoss& way : prediction.ways) {
    if (way.leads.empty()) continue;
    std::string text =
        fmt::format("{} loses {} of {} ({}) in its own leads when it takes {}: most in {}",
                    way.load, quantity::show(way.drop), quantity::show(way.fed),
                    way.share() < 0.01 ? "less than 1 %" : percent(way.share()),
                    quantity::show(way.current), way.leads.front());
    if (way.leads.size() > 1) text += " and " + way.leads[1];
    ways.push_back(text + ".");
  }
  if (!ways.empty()) page.list(ways);
}

void write_joins(const build::Build& build, Page& page) {
  std::vector<std::string> joins;
  for (const build::Join& join : build.joins) {
    std::string text = join.name + ":";
    for (const build::TerminalName& terminal : join.terminals)
      text += " " + show_terminal(terminal);
    joins.push_back(std::move(text));
  }
  if (joins.empty()) return;
  page.heading("Points where terminals meet without a wire");
  page.list(joins);
}

}  // namespace

std::string watt_hours(quantity::Joule energy) {
  const double wh = energy.si() / 3600.0;
  if (wh == 0.0) return "\u2013";
  const double size = std::abs(wh);
  if (size < 0.005) return "< 0.01";
  return fmt::format("{:.{}f}", wh, size < 0.995 ? 2 : size < 99.5 ? 1 : 0);
}

void write_wires(const ReportMatter& matter, Page& page) {
  page.begin_section("wires", "The wires, and the volts they lose");
  write_ways(matter.prediction, page);
  Table table{.caption =
                  "Every lead: its resistance at 20 degC with both its ends, what it carries for a "
                  "second or more in all and the share of what it may carry for good, its shortest "
                  "peak, the volts lost at the lasting current and the energy lost over the run, " +
                  matter.prediction.usual.words + ".",
              .columns = {{"Lead"},
                          {"From"},
                          {"To"},
                          {"Size", true},
                          {"Length", true},
                          {"Colour"},
                          {"Resistance", true},
                          {"Carries", true},
                          {"Of allowed", true},
                          {"Peak", true},
                          {"Volts lost", true},
                          {"Lost, Wh", true}},
              .style = Table::Style::Small};
  RowGroup& group = table.groups.emplace_back();
  for (const build::Lead& lead : matter.build.leads) {
    group.rows.push_back(wire_row(lead, matter.prediction.leads));
  }
  page.table(table);
  write_joins(matter.build, page);
  page.end_section();
}

}  // namespace tideover::papers
