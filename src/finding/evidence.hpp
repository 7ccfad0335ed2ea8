/// What rules are asked of: a build, and how it came out in its runs.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "build/build.hpp"
#include "run/record.hpp"
#include "run/run.hpp"

namespace tideover::finding {

/// One run of the build.
struct Case {
  std::string words;  ///< "storm, cells at the end of their life, 2 degC"
  run::Circumstances circumstances;
  const run::Record* record = nullptr;  ///< never null
};

class Wiring;
/// Nothing worked out yet.
[[nodiscard]] std::shared_ptr<Wiring> unknown_wiring();

/// The cases share one list of channels. The first is the usual one: cells as they are, in the
/// middle of the stated ambient. Without cases only what the sheet alone decides can be judged.
struct Evidence {
  const build::Build& build;
  std::vector<Case> cases;
  std::shared_ptr<Wiring> wiring = unknown_wiring();  ///< kept for the rules (finding/wiring.hpp)
};

}  // namespace tideover::finding
