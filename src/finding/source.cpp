#include "finding/source.hpp"

#include <algorithm>

#include "part/adapter/adapter.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"
#include "part/pack/pack.hpp"

namespace tideover::finding {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Resistance of one cell at a share of charge, straight between the stated points; `end` says
/// which end of their tolerance.
double cell_ohm(const part::Cell& cell, double soc, double Amount::*end) {
  const auto& points = cell.resistance;
  if (points.empty()) return 0.0;
  std::size_t above = 0;
  while (above < points.size() && points[above].soc.si() < soc) ++above;
  if (above == 0) return points.front().resistance.*end;
  if (above == points.size()) return points.back().resistance.*end;
  const part::ResistancePoint& a = points[above - 1];
  const part::ResistancePoint& b = points[above];
  const double along = (soc - a.soc.si()) / (b.soc.si() - a.soc.si());
  return a.resistance.*end + along * (b.resistance.*end - a.resistance.*end);
}

/// Of `groups` groups in series: without what builds up over seconds, or with all of it.
Ohm least_ohm(const part::Pack& pack, int groups) {
  const double r_ohm =
      cell_ohm(pack.cell, 1.0, &Amount::low_si) / pack.parallel + pack.link_resistance.low_si;
  return Ohm::of_si(groups * r_ohm);
}
Ohm most_ohm(const part::Pack& pack, int groups) {
  const part::Cell& cell = pack.cell;
  const double r_ohm = cell_ohm(cell, 0.0, &Amount::high_si) + cell.quick_resistance.high_si +
                       cell.slow_resistance.high_si;
  return Ohm::of_si(groups * (r_ohm * cell.end_of_life_resistance.si() / pack.parallel +
                              pack.link_resistance.high_si));
}

void add_pack(const part::Pack& pack, std::vector<Source>& all) {
  const part::Cell& cell = pack.cell;
  for (int groups = pack.series; groups >= 1; --groups) {
    all.push_back({.part = &pack,
                   .plus = {pack.name, pack.terminal_above(groups)},
                   .minus = {pack.name, "minus"},
                   .highest = static_cast<double>(groups) * Volt::of_si(cell.charge_to.high_si),
                   .lowest = static_cast<double>(groups) * Volt::of_si(cell.discharge_to.low_si),
                   .limit = std::nullopt,
                   .least_resistance = least_ohm(pack, groups),
                   .most_resistance = most_ohm(pack, groups),
                   .capacitance = {},
                   .capacitor_resistance = {},
                   .is_through = false});
  }
}

Source adapter_source(const part::Adapter& adapter) {
  return {.part = &adapter,
          .plus = {adapter.name, "plus"},
          .minus = {adapter.name, "minus"},
          .highest = adapter.output.high(),
          .lowest = adapter.output.low(),
          .limit = adapter.overload_current(),
          .least_resistance = Ohm::of_si(adapter.source_resistance.low_si),
          .most_resistance = Ohm::of_si(adapter.source_resistance.high_si),
          .capacitance = adapter.output_capacitance.nominal(),
          .capacitor_resistance = adapter.output_esr.nominal() + adapter.own_lead(),
          .is_through = false};
}

const Amount& setting_of(const part::ConverterBoard& board) {
  if (const auto* charger = dynamic_cast<const part::Charger*>(&board)) return charger->voltage;
  return dynamic_cast<const part::Converter&>(board).output;
}

Source board_source(const part::ConverterBoard& board, const Amount& voltage) {
  const part::SetPoint set = board.set_point();
  return {.part = &board,
          .plus = {board.name, "out_plus"},
          .minus = {board.name, "out_minus"},
          .highest = Volt::of_si(voltage.high_si),
          .lowest = Volt::of_si(voltage.low_si),
          .limit = set.current_limit,
          .least_resistance = set.output_resistance,
          .most_resistance = set.output_resistance,
          .capacitance = board.output_capacitance.nominal(),
          .capacitor_resistance = board.output_esr.nominal(),
          .is_through = board.topology == part::Topology::StepUp && !board.isolated};
}

}  // namespace

std::vector<Source> sources_of(const build::Build& build) {
  std::vector<Source> all;
  for (const auto& part : build.parts) {
    if (const auto* pack = dynamic_cast<const part::Pack*>(part.get())) {
      add_pack(*pack, all);
    } else if (const auto* adapter = dynamic_cast<const part::Adapter*>(part.get())) {
      all.push_back(adapter_source(*adapter));
    } else if (const auto* board = dynamic_cast<const part::ConverterBoard*>(part.get())) {
      all.push_back(board_source(*board, setting_of(*board)));
    }
  }
  return all;
}

}  // namespace tideover::finding
