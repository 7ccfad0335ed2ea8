#include "part/pack/cell_curves.hpp"

namespace tideover::part {

namespace {

struct Beyond {
  double soc;
  double voltage_ratio;  ///< over the rest voltage of the full cell
};

/// Rest voltage of a cell that is being overcharged: assumed, from memory. Nickel-rich cells take
/// lithium from a cathode that still holds some; iron phosphate ones have none left; lead-acid ones
/// start to gas.
std::vector<Beyond> overcharged(Chemistry chemistry) {
  switch (chemistry) {
    case Chemistry::Nmc: return {{1.05, 1.02}, {1.2, 1.12}};
    case Chemistry::Lfp: return {{1.02, 1.06}, {1.06, 1.25}};
    case Chemistry::LeadAcid: return {{1.03, 1.085}, {1.08, 1.2}};
  }
  return {};
}

/// Share of charge below empty at which the voltage has gone.
constexpr double dead_soc = -0.06;
/// Where the constant continuations of the resistance end; any place far off will do.
constexpr double far_below = -1.0;
constexpr double far_above = 2.0;

}  // namespace

CellCurves curves_of(const Cell& cell) {
  std::vector<double> soc{dead_soc};
  std::vector<double> volt{0.0};
  for (const RestPoint& point : cell.rest) {
    soc.push_back(point.soc.si());
    volt.push_back(point.voltage.si());
  }
  const double full_v = volt.back();
  for (const Beyond& beyond : overcharged(cell.chemistry)) {
    soc.push_back(beyond.soc);
    volt.push_back(beyond.voltage_ratio * full_v);
  }
  std::vector<double> at{far_below};
  std::vector<double> ohm{cell.resistance.front().resistance.si()};
  for (const ResistancePoint& point : cell.resistance) {
    at.push_back(point.soc.si());
    ohm.push_back(point.resistance.si());
  }
  at.push_back(far_above);
  ohm.push_back(ohm.back());
  const numeric::Table series(std::move(at), std::move(ohm));
  const double half = series(0.5);
  return {numeric::Table(std::move(soc), std::move(volt)), series.scaled(1.0 / half), half};
}

}  // namespace tideover::part
