/// Resistance of a conductor: by the table of its standard where its size is in one, by resistivity
/// over area where it is not.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "quantity/units.hpp"

namespace tideover::part {

enum class ConductorMaterial { Copper, CopperCladAluminium };
/// Solid is class 1 of IEC 60228, Stranded class 2, Flexible class 5.
enum class Strand { Solid, Stranded, Flexible };

using OhmPerMetre = decltype(quantity::Ohm{} / quantity::Metre{});

/// Annealed copper of 100 % IACS conductivity at 20 degC: 17.241 nOhm m, 0.00393 per kelvin
/// (IEC 60028, from memory). Copper-clad aluminium with 10 % copper by volume: 62.9 % IACS
/// (ASTM B566, from memory), temperature coefficient of aluminium.
[[nodiscard]] quantity::OhmMetre resistivity_at_20_degc(ConductorMaterial material);
/// R(T) / R(20 degC) = 1 + alpha (T - 20 degC).
[[nodiscard]] double resistance_factor(ConductorMaterial material, quantity::Temperature conductor);
/// What a reading taken at `measured_at` is multiplied by to compare it with the table at 20 degC:
/// 250 / (230 + t), the rounded rule of IEC 60228 for copper, 0.1 to 0.4 % off resistance_factor().
[[nodiscard]] double reduction_to_20_degc(quantity::Temperature measured_at);

/// One nominal size; highest allowed resistances of plain copper at 20 degC in ohm per km. A class
/// that the size does not come in holds 0.
struct NominalSize {
  double area_mm2;
  double solid_or_stranded;
  double flexible;
  double flexible_tinned;
  std::string_view source;
};
/// Nominal sizes in rising order.
[[nodiscard]] std::span<const NominalSize> nominal_sizes();

/// Highest resistance of one metre at 20 degC that the standard allows for a nominal size
/// (matched to 0.1 %); nothing for other sizes, American gauges among them.
[[nodiscard]] std::optional<OhmPerMetre> tabled_resistance(quantity::SquareMetre size,
                                                           ConductorMaterial material,
                                                           Strand strand, bool is_tinned);
/// The tabled resistance where there is one; else resistivity over area, with 2 % more for the lay
/// of strands (NEC chapter 9 table 8 against solid wire, from memory).
[[nodiscard]] OhmPerMetre resistance_per_metre(quantity::SquareMetre size,
                                               ConductorMaterial material, Strand strand,
                                               bool is_tinned, quantity::Temperature conductor);
/// Area of solid copper with the same resistance at 20 degC.
[[nodiscard]] quantity::SquareMetre copper_area_of(OhmPerMetre at_20_degc);

}  // namespace tideover::part
