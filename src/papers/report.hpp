/// The report of a prediction: one page for the builder, on screen and on paper.
#pragma once

#include <string>

#include "build/build.hpp"
#include "question/bands.hpp"
#include "question/changeover.hpp"
#include "question/faults.hpp"
#include "question/predict.hpp"

namespace tideover::papers {

/// A whole HTML document that asks for nothing from outside and runs no script. Equal input gives
/// equal bytes. `version` is the program's. Changes of source, bands and faults are told where they
/// were asked for.
[[nodiscard]] std::string report_html(const build::Build& build,
                                      const question::Prediction& prediction,
                                      const std::string& version,
                                      const question::Changeovers& changeovers = {},
                                      const question::Bands& bands = {},
                                      const question::FaultTable& faults = {});

}  // namespace tideover::papers
