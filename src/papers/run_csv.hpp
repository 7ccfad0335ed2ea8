/// A run as a table that spreadsheets read.
#pragma once

#include <string>

#include "run/record.hpp"

namespace tideover::papers {

/// RFC 4180: CRLF line ends, fields in double quotes where they need them. One column a channel,
/// headed `pack voltage [V]`; the first is `time [s]`. Two rows at one time stand around an event.
/// Numbers to seven significant digits; rows as question/thinning.hpp keeps them.
[[nodiscard]] std::string run_csv(const run::Record& record);

}  // namespace tideover::papers
