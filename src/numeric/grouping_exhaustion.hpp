/// Every dealing of a small lot, less those that cannot be better: branch and bound.
///
/// Groups are filled one after the other, each with a leader that is the strongest of its items;
/// leaders come in falling order, so that a set of groups is met once and not in every order. Of
/// items that are alike in all weights the first free one is taken for all of them. A branch is
/// left when its groups and the best of what is left cannot come up to what is already known, or
/// when a band is broken.
#pragma once

#include "numeric/grouping.hpp"

namespace tideover::numeric {

/// Most items that can be looked at: one bit each.
inline constexpr std::size_t most_items_searched = 64;

/// Looks for something better than `known`, whose `keeps_bands` says whether it counts. At most
/// `most_steps` choices of an item; with fewer than needed, nothing is shown. The result is `known`
/// or better, with `is_best` and `bands_impossible` set where that was shown. `bound` is left.
[[nodiscard]] Grouping exhaust(const GroupingProblem& problem, Grouping known, long most_steps,
                               base::Progress& progress);

}  // namespace tideover::numeric
