/// Which of two fuses in a row clears a short circuit first, over the whole range of its current.
///
/// Both carry the same current, so that the one whose let-through energy, the integral of its
/// square over time, ends first clears first: at a constant current that is the shorter time, and
/// where it grows while the fuses melt the total let-through of one against the melting integral of
/// the other. Sure is only what holds at the edges of both bands.
#pragma once

#include <optional>
#include <vector>

#include "part/fuse/fuse.hpp"

namespace tideover::question {

/// Which fuse clears first.
enum class First {
  Behind,     ///< the one nearer to the fault, for sure, or it is the only one that may open
  Before,     ///< the one nearer to the source: it takes everything down
  Uncertain,  ///< the bands overlap: either may go, or both
  None,       ///< both carry that for good
};

/// Currents with one answer.
struct RaceStretch {
  quantity::Ampere from;
  quantity::Ampere to;
  First first{};
};

struct FuseRace {
  const part::Fuse* before = nullptr;  ///< never null
  const part::Fuse* behind = nullptr;  ///< never null
  quantity::Ampere highest;            ///< the highest prospective current behind both
  /// From the larger rated current to the highest, rising, each beginning where the last ends;
  /// empty where the highest is no more than the larger rated current.
  std::vector<RaceStretch> stretches = {};
  /// At the highest current: what `behind` lets through at most, and what `before` takes at least
  /// until it melts; nothing where it need not open, or carries that for good.
  std::optional<quantity::AmpereSquaredSecond> lets_through = {};
  std::optional<quantity::AmpereSquaredSecond> melts_from = {};

  /// `behind` goes first at every current at which anything opens.
  [[nodiscard]] bool is_selective() const;
  /// `before` goes first for sure at some current.
  [[nodiscard]] bool is_the_wrong_way() const;
};

/// Precondition: neither fuse has contradictions.
[[nodiscard]] FuseRace fuse_race(const part::Fuse& before, const part::Fuse& behind,
                                 quantity::Ampere highest);

}  // namespace tideover::question
