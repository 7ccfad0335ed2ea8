#include "support/beacon.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

namespace tideover::test {

using quantity::Second;

namespace {

using Entry = std::pair<const char*, const char*>;

constexpr std::array entries{
    Entry{"needs.outlast", "'4 h'"},
    Entry{"needs.ambient", "'5 degC to 30 degC'"},
    Entry{"lamp.kind", "'load'"},
    Entry{"lamp.accepts", "'20 V to 28 V'"},
    Entry{"lamp.draws", "'8 W +/- 5 %'"},
    Entry{"clock.kind", "'load'"},
    Entry{"clock.accepts", "'4.7 V to 5.3 V'"},
    Entry{"clock.draws", "'1 W'"},
    Entry{"mains24.kind", "'adapter'"},
    Entry{"mains24.output", "'24 V +/- 2 %'"},
    Entry{"mains24.rated", "'2 A'"},
    Entry{"charger.kind", "'charger'"},
    Entry{"charger.voltage", "'12.3 V +/- 0.5 %'"},
    Entry{"charger.current", "'1 A +/- 5 %'"},
    Entry{"charger.accepts", "'6 V to 30 V'"},
    Entry{"pack.kind", "'pack'"},
    Entry{"pack.cell", "'shelf:nmc-18650-2900'"},
    Entry{"pack.series", "3"},
    Entry{"pack.parallel", "2"},
    Entry{"board.kind", "'protection-board'"},
    Entry{"board.series", "3"},
    Entry{"board.over_voltage", "'4.25 V +/- 25 mV'"},
    Entry{"board.over_voltage_release", "'4.1 V'"},
    Entry{"board.under_voltage", "'2.8 V +/- 50 mV'"},
    Entry{"board.discharge_over_current", "'12 A +/- 20 %'"},
    Entry{"board.rated", "'8 A'"},
    Entry{"f_pack.kind", "'fuse'"},
    Entry{"f_pack.style", "'blade'"},
    Entry{"f_pack.rated", "'5 A'"},
    Entry{"f_pack.rated_voltage", "'32 V'"},
    Entry{"f_pack.breaking_dc", "'1000 A'"},
    Entry{"main.kind", "'switch'"},
    Entry{"main.rated", "'8 A'"},
    Entry{"up24.kind", "'converter'"},
    Entry{"up24.topology", "'step-up'"},
    Entry{"up24.output", "'23 V +/- 1 %'"},
    Entry{"up24.rated", "'1.5 A'"},
    Entry{"up24.accepts", "'8 V to 20 V'"},
    Entry{"down5.kind", "'converter'"},
    Entry{"down5.topology", "'step-down'"},
    Entry{"down5.output", "'5 V +/- 1 %'"},
    Entry{"down5.rated", "'2 A'"},
    Entry{"down5.accepts", "'6.5 V to 26 V'"},
    Entry{"d_mains.kind", "'diode'"},
    Entry{"d_mains.rated", "'3 A'"},
    Entry{"d_pack.kind", "'diode'"},
    Entry{"d_pack.rated", "'3 A'"},
};

// Name, its two ends.
constexpr std::array<std::array<const char*, 3>, 21> leads{{
    {"pack_plus", "pack.plus", "f_pack.a"},
    {"pack_fused", "f_pack.b", "main.common"},
    {"mains_plus", "mains24.plus", "d_mains.anode"},
    {"mains_return", "mains24.minus", "board.p_minus"},
    {"lamp_plus", "d_mains.cathode", "lamp.plus"},
    {"lamp_return", "lamp.minus", "board.p_minus"},
    {"charger_plus", "mains24.plus", "charger.in_plus"},
    {"charger_return", "charger.in_minus", "board.p_minus"},
    {"charger_out", "charger.out_plus", "main.way1"},
    {"pack_minus", "pack.minus", "board.b_minus"},
    {"board_plus", "pack.plus", "board.b_plus"},
    {"tap_1", "pack.tap1", "board.tap1"},
    {"tap_2", "pack.tap2", "board.tap2"},
    {"up24_plus", "main.way1", "up24.in_plus"},
    {"up24_return", "up24.in_minus", "board.p_minus"},
    {"up24_out", "up24.out_plus", "d_pack.anode"},
    {"pack_to_lamp", "d_pack.cathode", "lamp.plus"},
    {"down5_plus", "main.way1", "down5.in_plus"},
    {"down5_return", "down5.in_minus", "board.p_minus"},
    {"clock_plus", "down5.out_plus", "clock.plus"},
    {"clock_return", "clock.minus", "down5.out_minus"},
}};

}  // namespace

std::string beacon_sheet(const Changes& changes) {
  Lines lines(entries.begin(), entries.end());
  for (const auto& [name, from, to] : leads) add_lead(lines, name, from, to, "'150 mm'");
  for (const auto& [path, value] : changes) lines[path] = value;
  return sheet_text(lines);
}

build::Build beacon(const Changes& changes) {
  return read_or_fail(beacon_sheet(changes), "beacon.toml");
}

std::vector<finding::Finding> ask(const finding::Rule& rule, const Changes& changes) {
  return ask(rule, beacon(changes), {});
}

std::vector<finding::Finding> ask(const finding::Rule& rule, const build::Build& build,
                                  const std::vector<run::Record>& records) {
  finding::Evidence evidence{build, {}};
  for (const run::Record& record : records) {
    evidence.cases.push_back({evidence.cases.empty() ? "as is" : "worn", {}, &record});
  }
  return rule.ask(evidence);
}

BeaconRun::BeaconRun() {
  const std::array<double, 6> at_h{0.0, 1.0, 1.0, 6.0, 6.0, 16.0};
  const auto hours = [](double h) { return Second::of_si(3600.0 * h); };
  for (const double h : at_h) record_.instants.push_back(hours(h));
  record_.timeline = "gale";
  record_.stretches = {{hours(0.0), hours(1.0), "mains present", true, true},
                       {hours(1.0), hours(6.0), "mains absent", false, true},
                       {hours(6.0), hours(16.0), "mains present", true, true}};
  record_.services = {{"lamp", {{hours(0.0), hours(16.0)}}},
                      {"clock", {{hours(0.0), hours(16.0)}}}};
  record_.outcome = {hybrid::Ended::AtTime, 16.0 * 3600.0, ""};
}

BeaconRun& BeaconRun::channel(const std::string& part, const std::string& name,
                              quantity::Dimension dimension, double on_mains_si,
                              double in_the_dark_si, bool is_temperature) {
  record_.channels.push_back({part, name, dimension, is_temperature});
  record_.samples_si.push_back(
      {on_mains_si, on_mains_si, in_the_dark_si, in_the_dark_si, on_mains_si, on_mains_si});
  const bool is_more_in_the_dark = in_the_dark_si > on_mains_si;
  const run::Extreme on_mains{on_mains_si, record_.instants[0]};
  const run::Extreme in_the_dark{in_the_dark_si, record_.instants[2]};
  record_.lowest.push_back(is_more_in_the_dark ? on_mains : in_the_dark);
  record_.highest.push_back(is_more_in_the_dark ? in_the_dark : on_mains);
  return *this;
}

BeaconRun& BeaconRun::overload(const std::string& part, const std::string& rating,
                               const std::string& channel, double limit_si, double worst_si) {
  const int found = record_.find(part, channel);
  REQUIRE(found >= 0);
  record_.overloads.push_back({.part = part,
                               .rating = rating,
                               .channel = static_cast<std::size_t>(found),
                               .limit_si = limit_si,
                               .is_upper = worst_si > limit_si,
                               .worst = {worst_si, record_.instants[2]},
                               .mean_si = worst_si,
                               .first = record_.instants[2],
                               .total = Second::of_si(60.0),
                               .longest = Second::of_si(60.0),
                               .stands = Second::of_si(1.0),
                               .source = "as stated"});
  return *this;
}

}  // namespace tideover::test
