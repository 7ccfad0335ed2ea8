/// The story of an outage as figures.
#pragma once

#include <optional>
#include <vector>

#include "build/build.hpp"
#include "drawing/figure.hpp"
#include "question/predict.hpp"

namespace tideover::papers {

struct Story {
  drawing::Figure figure;
  std::string caption;
};

/// Energy left as built and at the end of life.
[[nodiscard]] std::optional<Story> energy_story(const question::Prediction& prediction);
/// One trial from its start to its end: voltages, currents, temperatures, adapter head-room. A
/// record without samples has none.
[[nodiscard]] std::vector<Story> whole_story(const build::Build& build,
                                             const question::Trial& trial);
/// One trial in little: the voltage at every load and the energy left.
[[nodiscard]] std::optional<Story> short_story(const build::Build& build,
                                               const question::Trial& trial);

}  // namespace tideover::papers
