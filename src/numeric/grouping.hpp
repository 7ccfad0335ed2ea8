/// A lot dealt out into groups of equal count, so that the weakest group is as strong as can be.
///
/// Of n items, each with a worth, `groups` times `each` are dealt out; the rest are spares. First
/// the smallest sum of worth over a group is made as large as can be, then the spread, largest sum
/// less smallest, as small as can be. Further weights of the items may have to be even over the
/// groups: their sums lie within a band.
///
/// What is claimed: `is_best` says that no other dealing is better, shown by exhaustion; `bound`
/// is a worth that the weakest group of no dealing exceeds (grouping_bound.hpp). Everything depends
/// on the problem alone, never on the clock.
#pragma once

#include <cstddef>
#include <vector>

#include "base/progress.hpp"

namespace tideover::numeric {

/// Sums of `weight` over the groups lie close to each other.
struct EvenBand {
  enum class Measure {
    Ratio,       ///< largest <= smallest times (1 + most)
    Difference,  ///< largest <= smallest + most
  };
  std::vector<double> weight;  ///< one an item, none below 0
  Measure measure = Measure::Ratio;
  double most = 0.0;  ///< above 0
};

struct GroupingProblem {
  std::vector<double> worth;  ///< one an item, none below 0
  std::size_t groups = 1;     ///< at least 1
  std::size_t each = 1;       ///< items in a group, at least 1
  std::vector<EvenBand> bands = {};
  /// Exchanges to look at where the lot is too large to be exhausted; so many take the better part
  /// of a second (speed/grouping.cpp).
  long effort = 150'000'000;
};

struct Grouping {
  /// Indices of the items, rising in each group; groups rise by their first item.
  std::vector<std::vector<std::size_t>> groups;
  std::vector<std::size_t> spares;  ///< rising
  double weakest = 0.0;             ///< smallest sum of worth
  double spread = 0.0;              ///< largest sum less smallest
  double bound = 0.0;               ///< no dealing has a weakest group above this
  bool is_best = false;             ///< no dealing within the bands is better: shown, not hoped
  bool keeps_bands = true;          ///< if not, `groups` come as close to the bands as was found
  bool bands_impossible = false;    ///< no dealing keeps them: shown by exhaustion
  bool was_stopped = false;         ///< on request; the best until then

  /// How far the weakest group may lie below what can be had, as a share of it.
  [[nodiscard]] double gap_share() const {
    return is_best || weakest <= 0.0 ? 0.0 : bound / weakest - 1.0;
  }
};

/// Lots of up to this many items are gone through whole.
inline constexpr std::size_t most_items_exhausted = 16;

/// Sums of worth closer than this share of the largest worth count as equal.
inline constexpr double grouping_resolution = 1e-9;

/// Needs as many items as `groups` times `each`, at least. Never worse than in_order() where that
/// keeps the bands. Lots of up to `most_items_exhausted` are always shown to be best; larger ones
/// are if exhausting them happens to be quick, else an exchange of items finds what `bound` judges.
[[nodiscard]] Grouping group_evenly(const GroupingProblem& problem, base::Progress& progress);

/// The items as they come: the first `each` are the first group, and so on.
[[nodiscard]] Grouping in_order(const GroupingProblem& problem);

/// Sums of `weight` over the groups.
[[nodiscard]] std::vector<double> group_sums(const std::vector<std::vector<std::size_t>>& groups,
                                             const std::vector<double>& weight);
/// By how much the sums of a band's weight leave it, as a share of what it allows; 0 within.
[[nodiscard]] double beyond_band(const EvenBand& band, double least, double largest);

}  // namespace tideover::numeric
