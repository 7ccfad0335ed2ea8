#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "finding/rule_list.hpp"
#include "finding/setting.hpp"
#include "papers/report_sections.hpp"
#include "quantity/show.hpp"

namespace tideover::papers {

using finding::Setting;

namespace {

/// Ranges that ordinary multimeters have: they show up to one count below.
constexpr std::array<double, 4> volt_ranges{2.0, 20.0, 200.0, 600.0};
/// Up to this the 200 mA jack is good; above it is the 10 A one's turn.
constexpr double small_jack_a = 0.2;
constexpr double large_jack_a = 10.0;

std::string show(const Setting& setting, double si) {
  constexpr int digits = 4;
  return quantity::show_si(si, setting.measure, digits);
}

std::string range_for(const Setting& setting) {
  const double si = setting.value.nominal_si;
  if (setting.is_current) {
    if (si > large_jack_a) return "clamp meter, DC";
    return si < small_jack_a ? "200 mA DC" : "10 A DC, in the 10 A jack";
  }
  const auto range =
      std::ranges::find_if(volt_ranges, [&](double most) { return 1.1 * si < most; });
  return fmt::format("{:.0f} V DC", range == volt_ranges.end() ? volt_ranges.back() : *range);
}

/// A resistor that pulls the output to seven tenths of its voltage at the current limit.
std::string how_to_read(const build::Build& build, const Setting& setting) {
  if (!setting.is_current) {
    return fmt::format("{0}.out_plus to {0}.out_minus, input on, nothing connected to the output",
                       setting.part);
  }
  const auto settings = finding::settings_of(build);
  const auto voltage = std::ranges::find_if(
      settings, [&](const Setting& one) { return one.part == setting.part && !one.is_current; });
  const double volts = 0.7 * voltage->value.nominal_si;
  const double amps = setting.value.nominal_si;
  return fmt::format(
      "in series with a resistor of about {} that stands {}, from {}.out_plus to {}.out_minus; "
      "after the voltage",
      quantity::show(quantity::Ohm::of_si(volts / amps), 2),
      quantity::show(quantity::Watt::of_si(std::ceil(1.5 * volts * amps))), setting.part,
      setting.part);
}

std::vector<std::string> row_of(const build::Build& build, const Setting& setting) {
  const double si = setting.value.nominal_si;
  const auto tolerance = finding::tolerance_share_of(build, setting);
  if (!tolerance) {
    return {setting.part,
            setting.key,
            show(setting, si),
            "\u2013",
            "\u2013",
            range_for(setting),
            "not at this value: the findings say what to change it to"};
  }
  return {setting.part,
          setting.key,
          show(setting, si),
          show(setting, si * (1.0 - *tolerance)),
          show(setting, si * (1.0 + *tolerance)),
          range_for(setting),
          how_to_read(build, setting)};
}

}  // namespace

void write_set_points(const ReportMatter& matter, Page& page) {
  const auto settings = finding::settings_of(matter.build);
  if (settings.empty()) return;
  page.begin_section("set-points", "Set points");
  page.paragraph(fmt::format(
      "What is adjusted before the parts are wired together. How near: half of how far a setting "
      "can move before the first finding fails, no more than the tolerance the sheet counts on, "
      "and "
      "between {:.1f} % and {:.0f} %. Write down what the meter showed: it belongs into the sheet, "
      "as measured.",
      100.0 * finding::nearest_setting_share, 100.0 * finding::widest_setting_share));
  Table table{.caption = "Settings, and what to read while making them.",
              .columns = {{"Part"},
                          {"Setting"},
                          {"Set to", true},
                          {"From", true},
                          {"To", true},
                          {"Meter"},
                          {"Read it"}}};
  RowGroup& group = table.groups.emplace_back();
  for (const Setting& setting : settings) group.rows.push_back(row_of(matter.build, setting));
  page.table(table);
  page.caution(
      "While setting",
      {"Set voltages and currents before the pack is connected, on a bench supply with its own "
       "current limit; turn the screw down before the first switching on.",
       "A current is read in series with a resistor. An ammeter across a pack or an adapter is a "
       "short circuit: put the lead back into the voltage jack before the next reading.",
       "The resistor gets too hot to touch; stand it on something that does not burn.",
       std::string(finding::charge_voltage().caution)});
  page.end_section();
}

}  // namespace tideover::papers
