/// What the weakest group of no dealing exceeds.
///
/// Let b be the `groups` times `each` largest worths, falling, S the groups and P the items of
/// each. Exchange: giving a group a better item for one of its own lowers no sum, so that some
/// dealing with the strongest weakest group uses just b. (The least spread may need others, and so
/// may bands; a bound on the weakest group holds there all the same.) Then the weakest sum is at
/// most
///   the mean:          sum(b)/S
///   without the best:  groups that hold none of the j best number at least S - j, so that one has
///                      at most the mean of S - j groups made of the best that follow
///   with the worst:    the i worst lie in some g groups, i/P <= g <= min(i, S), one of which has
///                      at most (the i worst + the best gP - i)/g
///   folded, P = 2:     b_i + b_(2S+1-i), since the i worst have i - 1 partners above b_i
/// The arguments are elementary and our own; tests hold them against every dealing of small lots.
#pragma once

#include <cstddef>
#include <vector>

namespace tideover::numeric {

/// The smallest of these. At least `groups` times `each` worths, in any order.
[[nodiscard]] double weakest_group_bound(std::vector<double> worth, std::size_t groups,
                                         std::size_t each);

}  // namespace tideover::numeric
