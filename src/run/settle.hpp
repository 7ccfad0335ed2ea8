/// The state of a build after days on the mains.
#pragma once

#include <vector>

#include "build/build.hpp"
#include "hybrid/outcome.hpp"
#include "run/circuit.hpp"

namespace tideover::run {

struct Settled {
  std::vector<double> y;    ///< unknowns at time zero
  hybrid::Outcome outcome;  ///< AtTime, or why the build could not be settled
};

/// Takes the circuit from everything off and at rest through `lasts` of mains to time zero, with
/// the loads' profiles replaced by their mean. A build that states `settled = false` stays at rest.
/// What [start] states of charges and temperatures holds at the end. `with_profiles`: profiles
/// begin at time zero; else the mean stays.
[[nodiscard]] Settled settle(Circuit& circuit, const build::Build& build, quantity::Second lasts,
                             bool with_profiles = true);

}  // namespace tideover::run
