/// Which part of a result's variance comes from which group of inputs.
///
/// `first` is the part that goes when the group is known and all else is as unsure as before;
/// `total` is the part that is left when all but the group is known. They differ where inputs act
/// together; first-order shares add up to at most one, total ones to at least one.
/// Sources: first order by estimator (b), total by (f) of table 2 in Saltelli et al., Comput. Phys.
/// Commun. 181 (2010) 259, the latter after Jansen, Comput. Phys. Commun. 117 (1999) 35 (both from
/// memory); errors of a ratio of means over replicates after Cochran, Sampling Techniques, 3rd ed.
/// 1977, section 6.3 (from memory).
#pragma once

#include <span>
#include <vector>

namespace tideover::numeric {

/// A result at the points of one replicate (numeric/pick_freeze_points.hpp), all equally long.
struct PickFreeze {
  std::vector<double> at_a;
  std::vector<double> at_b;
  std::vector<std::vector<double>> at_mixed;  ///< for each group
};

struct VarianceShare {
  double first;
  double first_error;  ///< standard error of the estimate
  double total;
  double total_error;
};

struct VarianceShares {
  double mean;
  double variance;
  std::vector<VarianceShare> groups;  ///< all nought if the result does not vary
};

/// A function at the same points that follows the result and whose variance is known without
/// draws: what points happen to make of it is taken off, which leaves shares of the same mean and
/// far less scatter. A control variate, Cochran as above, section 7.
struct Control {
  std::vector<PickFreeze> replicates;
  std::vector<double> parts;  ///< variance of each group by itself; the function adds inputs up
  double variance = 0.0;
};

/// From at least two replicates of different seeds, alike in groups, each with at least two points.
/// An estimate may fall a little outside 0 to 1: by what its error says.
[[nodiscard]] VarianceShares variance_shares(std::span<const PickFreeze> replicates);
[[nodiscard]] VarianceShares variance_shares(std::span<const PickFreeze> replicates,
                                             const Control& control);

}  // namespace tideover::numeric
