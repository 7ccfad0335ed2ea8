/// The milliseconds around a change, cut out of a record.
#pragma once

#include "question/source_change.hpp"

namespace tideover::question {

/// Shown before a change.
inline constexpr double lead_in_s = 0.5;

/// Samples, events, stretches and services from `lead_in_s` before `change` to its end; all
/// instants count from the change. Extremes, overloads and books are left out: they are not the
/// excerpt's.
[[nodiscard]] run::Record excerpt(const run::Record& record, const SourceChange& change);

}  // namespace tideover::question
