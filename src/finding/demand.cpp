#include "finding/demand.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"
#include "part/fan/fan.hpp"
#include "part/relay/relay.hpp"

namespace tideover::finding {

using build::TerminalName;
using quantity::Ampere;
using quantity::Ohm;
using quantity::Volt;
using quantity::Watt;

namespace {

/// Boards that feed each other in a ring are followed so far and no further.
constexpr int deepest = 4;

Ampere output_of(const build::Build& build, const Rails& rails, const part::ConverterBoard& board,
                 int depth);

Ampere small_consumers(const build::Build& build, const Rails& rails, const TerminalName& source,
                       Volt at) {
  Ampere sum;
  for (const part::Fan* fan : parts_of<part::Fan>(build)) {
    if (rails.feeds(source, {fan->name, "plus"})) sum += fan->rated_current.nominal();
  }
  for (const part::Relay* relay : parts_of<part::Relay>(build)) {
    const bool is_fed = rails.feeds(source, {relay->name, "coil_plus"});
    if (is_fed) sum += at / Ohm::of_si(relay->coil_resistance.low_si + relay->series_resistor.si());
  }
  return sum;
}

Ampere demand_of(const build::Build& build, const Rails& rails, const TerminalName& source, Volt at,
                 int depth) {
  Ampere sum = small_consumers(build, rails, source, at);
  for (const part::Load* load : parts_of<part::Load>(build)) {
    if (rails.feeds(source, {load->name, "plus"})) sum += peak_current(*load, at);
  }
  for (const part::Converter* board : parts_of<part::Converter>(build)) {
    if (depth >= deepest || !rails.feeds(source, {board->name, "in_plus"})) continue;
    sum += input_current(*board, at, output_of(build, rails, *board, depth + 1));
  }
  return sum;
}

Ampere output_of(const build::Build& build, const Rails& rails, const part::ConverterBoard& board,
                 int depth) {
  return demand_of(build, rails, {board.name, "out_plus"}, board.set_point().voltage, depth);
}

Supply adapter_source(const part::Adapter& adapter) {
  const Volt no_load = adapter.curve.empty()
                           ? adapter.output.high()
                           : std::max(adapter.output.high(), adapter.curve.front().volts.high());
  return {adapter.name,
          no_load,
          full_load_voltage(adapter),
          adapter.output.low(),
          adapter.name + " at no load",
          adapter.name + " at its full load"};
}

Supply pack_source(const PackCompany& company) {
  const part::Pack& pack = *company.pack;
  Supply source{.part = pack.name, .highest = pack.series * pack.cell.charge_to.nominal()};
  source.why_highest = pack.name + " when it is full";
  if (!company.chargers.empty()) {
    const auto by = std::ranges::max_element(
        company.chargers, {}, [](const auto* charger) { return charger->voltage.high_si; });
    source.highest = (*by)->voltage.high();
    source.why_highest = fmt::format("{} when {} has filled it", pack.name, (*by)->name);
  }
  const CutOff cut_off = cut_off_of(company);
  source.lowest = source.at_rest = cut_off.lowest;
  source.why_lowest = cut_off.by == pack.name
                          ? pack.name + " when it is empty"
                          : fmt::format("{} as {} cuts it off", pack.name, cut_off.by);
  return source;
}

Supply converter_source(const part::Converter& board) {
  const Volt drop = board.rated.nominal() * board.output_resistance.nominal();
  return {board.name,         board.output.high(),        board.output.low() - drop,
          board.output.low(), board.name + " at no load", board.name + " at its full load"};
}

}  // namespace

Watt peak_power(const part::Load& load) {
  if (load.draws_current.given || load.draws_resistance.given) return {};
  if (load.profile.empty()) return load.draws.high();
  return std::ranges::max_element(load.profile, {},
                                  [](const part::ProfileStretch& one) { return one.draws.high_si; })
      ->draws.high();
}

Ampere peak_current(const part::Load& load, Volt at) {
  if (load.draws_current.given) return load.draws_current.high();
  if (load.draws_resistance.given) return at / load.draws_resistance.low();
  return peak_power(load) / at;
}

Ampere input_current(const part::ConverterBoard& board, Volt in, Ampere out) {
  const part::Losses lost = board.losses().losses;
  if (board.topology == part::Topology::Linear) return lost.idle + out;
  return lost.idle + (board.set_point().voltage + lost.linear + out * lost.square) * out / in;
}

Ampere peak_demand(const build::Build& build, const Rails& rails, const TerminalName& source,
                   Volt at) {
  return demand_of(build, rails, source, at, 0);
}

Ampere peak_output(const build::Build& build, const Rails& rails,
                   const part::ConverterBoard& board) {
  return output_of(build, rails, board, 1);
}

Volt full_load_voltage(const part::Adapter& adapter) {
  constexpr double most_lost = 1.0 / 3.0;
  const Ampere rated = adapter.rated.nominal();
  Volt lowest = (1.0 - most_lost) * adapter.output.low();
  if (adapter.curve.size() < 2) {
    return std::max(lowest, adapter.output.low() - rated * adapter.source_resistance.nominal());
  }
  // Readings go from no load to overload; beyond the last one nobody knows.
  for (std::size_t k = 1; k < adapter.curve.size(); ++k) {
    const auto& before = adapter.curve[k - 1];
    const auto& after = adapter.curve[k];
    lowest = after.volts.nominal();
    if (after.amps.nominal() < rated) continue;
    const Ampere step = after.amps.nominal() - before.amps.nominal();
    if (step.si() <= 0.0) return lowest;
    const double share = ((rated - before.amps.nominal()) / step).si();
    return before.volts.nominal() + share * (after.volts.nominal() - before.volts.nominal());
  }
  return lowest;
}

std::vector<Supply> supplies_of(const build::Build& build, const Rails& rails,
                                const TerminalName& terminal) {
  std::vector<Supply> all;
  for (const part::Adapter* adapter : parts_of<part::Adapter>(build)) {
    if (rails.feeds({adapter->name, "plus"}, terminal)) all.push_back(adapter_source(*adapter));
  }
  for (const PackCompany& company : pack_companies(build)) {
    if (rails.feeds({company.pack->name, "plus"}, terminal)) all.push_back(pack_source(company));
  }
  for (const part::Converter* board : parts_of<part::Converter>(build)) {
    const bool is_own = board->name == terminal.part;
    if (!is_own && rails.feeds({board->name, "out_plus"}, terminal)) {
      all.push_back(converter_source(*board));
    }
  }
  return all;
}

CutOff cut_off_of(const PackCompany& company) {
  const part::Pack& pack = *company.pack;
  CutOff cut_off{pack.series * pack.cell.discharge_to.low(),
                 pack.series * pack.cell.discharge_to.high(), pack.name};
  for (const part::ProtectionBoard* board : company.boards) {
    const Volt low = pack.series * board->under_voltage.low();
    if (cut_off.by != pack.name && low <= cut_off.lowest) continue;
    cut_off = {low, pack.series * board->under_voltage.high(), board->name};
  }
  return cut_off;
}

}  // namespace tideover::finding
