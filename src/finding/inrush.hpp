/// Empty capacitors that a source fills through whatever stands in the way.
#pragma once

#include "finding/feed.hpp"

namespace tideover::finding {

/// All capacitors together, their series resistances side by side.
struct CapacitorBank {
  quantity::Farad capacitance;
  quantity::Ohm esr;
};

/// What the source charges through `through`, a fuse or a lead, and by no other way; null: all it
/// charges. Users' input capacitors and those that stand on a rail by themselves; behind a step-up
/// that is not isolated its output's as well.
[[nodiscard]] CapacitorBank bank_behind(const build::Build& build, const Feeding& feeding,
                                        const Source& source, const void* through);

/// I2t of filling a bank from empty: of a source that limits itself the charge its own capacitors
/// share at once, and the rest at its limit; of a pack all of it. `way`: between both.
///     integral of i^2 dt = C U^2 / (2 R) for a capacitor filled through a resistance
/// Source: Kirchhoff's laws; half the energy drawn is lost in R whatever R is.
[[nodiscard]] quantity::AmpereSquaredSecond inrush_integral(const Source& source,
                                                            const CapacitorBank& bank,
                                                            quantity::Ohm way);

}  // namespace tideover::finding
