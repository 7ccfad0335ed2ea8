/// A build with a capacitor at a load's terminals, of any size: what a search for the capacitance
/// that would do is carried out on.
#pragma once

#include "build/build.hpp"

namespace tideover::question {

enum class Fitting {
  AtLoad,       ///< across the load's terminals
  BehindDiode,  ///< so too, and a Schottky diode before both: the load's own, fed by nothing else
};

/// The capacitor that stands across the load's terminals already, nothing but wires between; empty
/// if there is none.
[[nodiscard]] std::string capacitor_at(const build::Build& build, const std::string& load);

/// A copy in which the capacitor at the load has this capacitance and the series resistance usual
/// for it (part/capacitor/sizing.hpp). One that is there already is changed, else one is added.
[[nodiscard]] build::Build with_capacitor(const build::Build& build, const std::string& load,
                                          quantity::Farad capacitance, Fitting fitting);

}  // namespace tideover::question
