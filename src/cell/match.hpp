/// A judged lot becomes groups of one pack: which cell goes where, and what that is worth.
///
/// The groups in series carry one current, so that the weakest ends the run; the stronger ones keep
/// what they have left. First the weakest is made as strong as can be, then the spread least
/// (numeric/grouping.hpp).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "cell/judge_cell.hpp"

namespace tideover::cell {

struct MatchWishes {
  int series = 1;
  int parallel = 1;
  /// Doubtful cells are taken only where the accepted ones are too few.
  bool may_take_doubtful = true;
  /// The largest group resistance is at most so much above the smallest; empty: no matter.
  std::optional<quantity::Ratio> resistance_within;
  /// In 30 days no group loses more than another by above this share of a group's charge.
  std::optional<quantity::Ratio> self_discharge_within;
  quantity::Watt load;     ///< for the run time; 0: none is said
  quantity::Ampere bleed;  ///< of the board's balancing; 0: no hours are said
  /// Charge of the cells when they are joined, all at one voltage: as they were stored.
  quantity::Ratio joined_at = quantity::Ratio::of_si(0.4);
};

struct MatchedGroup {
  int number = 1;                  ///< from the minus end
  std::vector<std::string> cells;  ///< in the lot's order
  quantity::Coulomb capacity;
  quantity::Ohm resistance;        ///< of its cells side by side
  quantity::Ratio self_discharge;  ///< share of its charge lost in 30 days
};

/// One way to deal the cells out, and what comes of it.
struct Dealing {
  std::vector<MatchedGroup> groups;
  quantity::Coulomb weakest;
  quantity::Coulomb spread;            ///< strongest less weakest group
  quantity::Second run_time;           ///< from full, at rest voltages; 0 without a load
  quantity::Second first_balancing;    ///< until all are full the first time; 0 without a bleed
  quantity::Second monthly_balancing;  ///< against their unequal self-discharge, in 30 days
};

struct Match {
  Dealing matched;
  Dealing in_order;                   ///< the same cells as they come, for comparison
  std::vector<std::string> spares;    ///< fit, and not needed
  std::vector<std::string> doubtful;  ///< left out, in doubt
  std::vector<std::string> rejected;
  std::vector<std::string> unmeasured;  ///< left out: no capacity is known
  std::vector<std::string> assumed;     ///< built in with the class's resistance
  bool takes_doubtful = false;
  bool is_best = false;           ///< no dealing of these cells is better: shown
  quantity::Ratio gap;            ///< else the weakest group is at most so far from the best
  bool keeps_bands = true;        ///< if not, no dealing was found that does
  bool bands_impossible = false;  ///< and there is none
  bool was_stopped = false;
  std::vector<std::string> sentences;  ///< all of that in plain words
  std::string caution;
};

/// The verdict is of this lot. Problems: fewer fit cells than the pack needs; wishes out of range
/// (series and parallel 1 to 1000, bands above 0, joined_at 0 to 1, load and bleed not negative).
[[nodiscard]] base::Result<Match> match_lot(const Lot& lot, const JudgedLot& judged,
                                            const MatchWishes& wishes, base::Progress& progress);

}  // namespace tideover::cell
