/// The state of a build after days on the mains.
#pragma once

#include <vector>

#include "base/progress.hpp"
#include "build/build.hpp"
#include "hybrid/outcome.hpp"
#include "run/circuit.hpp"

namespace tideover::run {

struct Settled {
  std::vector<double> y;    ///< unknowns at time zero
  hybrid::Outcome outcome;  ///< AtTime, or why not: Restless, Stuck, or ByObserver when stopped
};

/// Takes the circuit from everything off and at rest through `lasts` of mains to time zero, with
/// the loads' profiles replaced by their mean. A build that states `settled = false` stays at rest.
/// What [start] states of charges and temperatures holds at the end. `with_profiles`: profiles
/// begin at time zero; else the mean stays. A build whose parts switch without end is given up
/// after a stated number of reactions, and `progress` may stop it at any step.
[[nodiscard]] Settled settle(Circuit& circuit, const build::Build& build, quantity::Second lasts,
                             base::Progress& progress, bool with_profiles = true);

}  // namespace tideover::run
