/// Bands as a table for spreadsheets.
#pragma once

#include <string>

#include "question/bands.hpp"

namespace tideover::papers {

/// One row a band; each quantile with the ends of its 95 % confidence interval. "never" stands for
/// what never comes. RFC 4180, with a head.
[[nodiscard]] std::string bands_csv(const question::Bands& bands);

}  // namespace tideover::papers
