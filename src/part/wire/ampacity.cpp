#include "part/wire/ampacity.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"
#include "part/wire/gauge.hpp"

namespace tideover::part {

using quantity::Ampere;
using quantity::SquareMetre;
using quantity::Temperature;

namespace {

struct Grouping {
  int loaded;
  double factor;
};
constexpr std::array groupings{
    Grouping{3, 1.0},   Grouping{5, 0.75},  Grouping{7, 0.65},
    Grouping{10, 0.55}, Grouping{14, 0.50}, Grouping{19, 0.45},
    Grouping{24, 0.40}, Grouping{40, 0.35}, Grouping{61, 0.30},
};

}  // namespace

const AmpacityTable* find_ampacity_table(std::string_view name) {
  for (const AmpacityTable& table : ampacity_tables()) {
    if (table.name == name) return &table;
  }
  return nullptr;
}

std::optional<Ampere> tabled_ampacity(const AmpacityTable& table, SquareMetre size) {
  // An American gauge or a rounded size at either end still counts as inside.
  constexpr double slack = 1e-3;
  const double area = size.si() * 1e6;
  const auto rows = table.rows;
  if (area < rows.front().area_mm2 * (1.0 - slack)) return std::nullopt;
  if (area > rows.back().area_mm2 * (1.0 + slack)) return std::nullopt;
  const double inside = std::clamp(area, rows.front().area_mm2, rows.back().area_mm2);
  std::size_t upper = 1;
  while (upper + 1 < rows.size() && rows[upper].area_mm2 < inside) ++upper;
  const AmpacityRow& a = rows[upper - 1];
  const AmpacityRow& b = rows[upper];
  const double share = std::log(inside / a.area_mm2) / std::log(b.area_mm2 / a.area_mm2);
  return Ampere::of_si(a.current_a * std::pow(b.current_a / a.current_a, share));
}

double ambient_factor(const AmpacityTable& table, Temperature ambient, Temperature limit) {
  if (ambient >= limit) return 0.0;
  return std::sqrt((limit - ambient).si() / (table.conductor - table.ambient).si());
}

double grouping_factor(int loaded) {
  TIDEOVER_EXPECT(loaded >= 1, "a wire counts itself");
  for (const Grouping& row : groupings) {
    if (loaded <= row.loaded) return row.factor;
  }
  return groupings.back().factor;
}

double bundle_share(int wires) {
  TIDEOVER_EXPECT(wires >= 1, "a wire counts itself");
  return wires > 15 ? 0.5 : (29 - wires) / 28.0;
}

Ampere by_700_circular_mils(SquareMetre size) {
  const double diameter_mil = diameter_of(size).si() / 25.4e-6;
  return Ampere::of_si(diameter_mil * diameter_mil / 700.0);
}

std::optional<Ampacity> ampacity_by(const AmpacityTable& table, SquareMetre size, int loaded,
                                    Temperature ambient, Temperature limit) {
  const auto current = tabled_ampacity(table, size);
  if (!current) return std::nullopt;
  const double grouped = table.is_for_full_bundles ? 1.0 : grouping_factor(loaded);
  return Ampacity{*current * (grouped * ambient_factor(table, ambient, limit)),
                  std::string(table.name)};
}

Ampacity ampacity_of(SquareMetre size, Laid laid, int loaded, Temperature ambient,
                     Temperature limit) {
  for (const AmpacityTable& table : ampacity_tables()) {
    if (table.laid != laid) continue;
    if (auto found = ampacity_by(table, size, loaded, ambient, limit)) return *std::move(found);
  }
  return {by_700_circular_mils(size), std::string(circular_mils_rule)};
}

}  // namespace tideover::part
