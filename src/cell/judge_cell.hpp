/// Accept, doubt, reject: each cell of a lot by rules of the trade, each with its number.
///
/// A rule is asked where what it needs was measured; where not, its judgement is `NotAsked` and
/// says what to measure. A cell is as good as the worst of its judgements.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cell/lot.hpp"
#include "cell/self_discharge.hpp"

namespace tideover::cell {

enum class Fitness { NotAsked, Accept, Doubt, Reject };
[[nodiscard]] std::string_view word_of(Fitness fitness);

/// What a lot is judged by. Shares are of what the class's row on the shelf states.
struct Thresholds {
  /// Below it a cell is worn out: the row's `end_of_life_capacity`, 80 % unless it says otherwise.
  /// IEEE 485 and 1115 replace a battery at 80 % (from memory). Doubt begins so far above:
  quantity::Ratio capacity_doubt_above_limit = quantity::Ratio::of_si(0.05);
  /// Doubt: above the row's `end_of_life_resistance`. Reject: so many times that. A tester at
  /// 1 kHz reads lower than a jump of current does, by 1.3 to 2 (from memory), so that a high
  /// figure is high by either. Common practice, no source.
  quantity::Ratio resistance_reject_over_doubt = quantity::Ratio::of_si(1.5);
  /// At rest below the row's `discharge_to`: doubt. Below this share of it: reject, without a trial
  /// charge. For 2.5 V that is 2.0 V, below which copper goes into solution and may short the cell
  /// later (common practice, no source).
  quantity::Ratio rest_reject_share = quantity::Ratio::of_si(0.8);
  /// Self-discharge in 30 days. Handbooks give 2 to 3 % a month for sound lithium cells
  /// (daviddarling.info, read); at more than twice the row's and above 3 % doubt, at twice that
  /// reject. Common practice, no source.
  quantity::Ratio leak_doubt_least = quantity::Ratio::of_si(0.03);
  quantity::Ratio leak_doubt_over_row = quantity::Ratio::of_si(2.0);
  quantity::Ratio leak_reject_over_doubt = quantity::Ratio::of_si(2.0);
  /// An outlier must also differ by more than the same test repeated on one cell: 1.7 % of capacity
  /// on one 2.9 Ah cell (Kollmeyer 2018, two runs at 1C), so 2 %; of resistance 10 %, of
  /// self-discharge by more than the doubt limit's half (common practice, no source).
  quantity::Ratio capacity_repeats_within = quantity::Ratio::of_si(0.02);
  quantity::Ratio resistance_repeats_within = quantity::Ratio::of_si(0.10);
  /// A family of fewer shows no outliers.
  std::size_t least_family = 5;
};

struct Judgement {
  std::string_view rule;   ///< "low_capacity": for programs
  std::string_view title;  ///< "Low capacity"
  Fitness fitness = Fitness::NotAsked;
  std::string figure = {};  ///< "2.31 Ah"; empty where not asked
  std::string limit = {};   ///< "at least 2.24 Ah"
  std::string sentence = {};
  std::string advice = {};  ///< what to do or to measure; empty if nothing
  std::string source = {};
  std::string caution = {};  ///< beside what can hurt someone
};

struct JudgedCell {
  std::string name;
  Fitness fitness = Fitness::NotAsked;  ///< of all judgements the worst
  std::vector<Judgement> judgements;    ///< one a rule, in the same order for every cell
  std::optional<SelfDischarge> self_discharge;
};

struct JudgedLot {
  std::vector<JudgedCell> cells;  ///< in the lot's order
  std::string caution;
  [[nodiscard]] std::size_t count(Fitness fitness) const;
};

[[nodiscard]] JudgedLot judge_lot(const Lot& lot, const Thresholds& thresholds = {});

}  // namespace tideover::cell
