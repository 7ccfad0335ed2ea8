/// Carries out runs that do not depend on each other, two at a time where there are two cores.
#pragma once

#include <string>
#include <vector>

#include "base/progress.hpp"
#include "run/run.hpp"

namespace tideover::question {

/// One run to be carried out. `build` must outlive the work.
struct Experiment {
  const build::Build* build = nullptr;
  build::Timeline timeline;
  run::Circumstances circumstances;
  std::string doing;          ///< for the progress: "storm, cells as they are, 18 degC"
  double effort = 1.0;        ///< of all, as a share to weigh the progress by; any unit
  std::size_t most_rows = 0;  ///< samples left in the record afterwards; 0: all
};

/// The records in the order of `experiments`, whatever order they were done in. Once the user has
/// asked to stop, what has not begun is an empty record that says it is partial. `progress` is
/// called from the calling thread alone. An exception of a run is thrown here after all have ended.
[[nodiscard]] std::vector<run::Record> carry_out(const std::vector<Experiment>& experiments,
                                                 const run::Settings& settings,
                                                 base::Progress& progress);

/// A run that was stopped before its first stretch shows a build that has not come to rest: inrush
/// that never comes. Nothing of it is kept but its name.
[[nodiscard]] run::Record what_was_begun(run::Record record);

}  // namespace tideover::question
