/// Where a log breaks into sections.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "cell/log.hpp"
#include "cell/log_rows.hpp"

namespace tideover::cell {

/// A new beginning that the columns show by themselves: time goes back, headings stand again, a
/// label in letters becomes another.
struct Break {
  std::size_t sample = 0;
  Section::Begins why = Section::Begins::Reset;
};

[[nodiscard]] std::vector<Break> find_breaks(const RawLog& raw, std::span<const double> time_s,
                                             const std::vector<std::string>& words);

/// Samples behind a time without samples that what is seen does not explain: the counter moved by
/// more than the current could, or, without a counter, the voltage jumped. `counter_as` may be
/// empty; current and counter have one sign.
[[nodiscard]] std::vector<std::size_t> find_gaps(const Log& log, const std::vector<Break>& breaks);

/// Sections from breaks and gaps, with their labels and lines.
[[nodiscard]] std::vector<Section> make_sections(const Log& log, const RawLog& raw,
                                                 const std::vector<Break>& breaks,
                                                 const std::vector<std::size_t>& gaps,
                                                 const std::vector<std::string>& words);

}  // namespace tideover::cell
