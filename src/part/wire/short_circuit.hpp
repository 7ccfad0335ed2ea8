/// What a wire stands for a short time, and what melts it. A current that melts a wire is no safe
/// current: these are for fuses to stay far below.
#pragma once

#include "part/wire/conductor.hpp"
#include "quantity/units.hpp"

namespace tideover::part {

/// k of k^2 S^2 >= I^2 t, in A s^(1/2) / mm2: the heat of a short circuit stays in the conductor.
/// Copper 226 sqrt(ln(1 + (T1 - T0) / (234.5 + T0))), aluminium 148 with 228 in place of 234.5.
/// Source: IEC 60364-5-54 annex A (from memory); PVC on copper, 70 to 160 degC, is printed as 115.
/// Copper-clad aluminium is taken as aluminium, which is on the safe side.
[[nodiscard]] double adiabatic_k(ConductorMaterial material, quantity::Temperature before,
                                 quantity::Temperature after);
/// Let-through energy k^2 S^2 that takes the conductor from `before` to `after`.
[[nodiscard]] quantity::AmpereSquaredSecond adiabatic_withstand(quantity::SquareMetre size,
                                                                ConductorMaterial material,
                                                                quantity::Temperature before,
                                                                quantity::Temperature after);
/// Conductor temperature that insulation of a given lasting limit stands in a short circuit:
/// 160 degC for PVC (limit up to 75 degC), 250 degC for cross-linked kinds (from 90 degC).
/// Source: IEC 60364-4-43 table 43A (from memory).
[[nodiscard]] quantity::Temperature short_circuit_limit(quantity::Temperature lasting_limit);

enum class FusingMetal { Copper, Aluminium, Iron };
/// Preece: the current that melts a round wire in free air, given time; a d^1.5 with d in inches, a
/// = 10244, 7585, 3148. Source: copper and aluminium as restated by nessengr.com (read), iron from
/// memory (that page has 3300).
[[nodiscard]] quantity::Ampere preece_fusing_current(FusingMetal metal, quantity::Metre diameter);
/// Onderdonk: the current that melts bare copper within `time` with no heat lost;
/// I = A sqrt(log10(1 + (1083 - Ta) / (234 + Ta)) / (33 t)), A in circular mils. The ambient is
/// *added* to 234; pages that subtract it print currents that are too high.
[[nodiscard]] quantity::Ampere onderdonk_fusing_current(quantity::SquareMetre size,
                                                        quantity::Second time,
                                                        quantity::Temperature ambient);

}  // namespace tideover::part
