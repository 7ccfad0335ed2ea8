/// Bands for people.
#pragma once

#include "question/bands.hpp"
#include "service/verb.hpp"

namespace tideover::service {

[[nodiscard]] std::vector<Line> bands_lines(const question::Bands& bands);

/// Met where everything asked for is met in at least 95 of 100 draws; that share: assumed.
[[nodiscard]] Status status_of(const question::Bands& bands);

}  // namespace tideover::service
