/// One run told through time: which of its samples are shown, and how much room each time gets.
#pragma once

#include <cstddef>
#include <vector>

#include "run/record.hpp"

namespace tideover::question {

inline constexpr std::size_t most_instants = 800;

/// A time at a scale of its own; shares of all add up to 1.
struct Fold {
  double from_s = 0.0;
  double to_s = 0.0;
  double share = 1.0;
};
/// One a stretch of the timeline; its share grows with the logarithm of its length. Empty for a
/// record without samples or of no length.
[[nodiscard]] std::vector<Fold> folds_of(const run::Record& record);

/// Indices of samples whose instants rise: the first, the last, one after every event and one
/// before it as far as three quarters of `most` go, the rest evenly over the folded time. Events of
/// more instants than that are thinned.
[[nodiscard]] std::vector<std::size_t> told_instants(const run::Record& record,
                                                     std::size_t most = most_instants);

}  // namespace tideover::question
