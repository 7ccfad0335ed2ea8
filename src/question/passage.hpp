/// One load through one change of what feeds it.
#pragma once

#include <optional>
#include <string_view>

#include "question/source_change.hpp"

namespace tideover::question {

/// A fall of less than this is none worth telling.
inline constexpr double least_fall_share = 1e-3;

struct Passage {
  enum class Outcome {
    InRange,    ///< served throughout, and its input never left its range
    Rides,      ///< served throughout, out of range for no longer than it rides
    Fails,      ///< served before, and not all the time after
    Dark,       ///< so too, but after a cut-off, or switched off: nothing is left to feed it
    NotServed,  ///< it did not serve before either
  };
  AcceptedRange accepts = {};
  Outcome outcome = Outcome::NotServed;
  quantity::Volt before{};  ///< at its terminals, just before the change
  quantity::Watt draw{};    ///< just before the change
  quantity::Volt lowest{};
  quantity::Second lowest_after{};  ///< counted from the change, like all below
  quantity::Volt highest{};
  quantity::Second highest_after{};
  quantity::Second below{};  ///< in all, as long as it served or would have
  quantity::Second above{};
  /// From when its voltage begins to fall (leaves `falls_share` of what it was) to its lowest:
  /// how long it lives on what is stored.
  quantity::Second without_source{};
  std::optional<quantity::Second> lost_after = {};
  bool is_fed_again = false;  ///< in range when the change is over

  [[nodiscard]] quantity::Second out_of_range() const { return below + above; }
  /// How much of the room down to its lowest accepted voltage it falls by: 0 to 1 within its range.
  [[nodiscard]] double dip_share() const;
  [[nodiscard]] bool falls() const { return lowest.si() < (1.0 - least_fall_share) * before.si(); }
  /// It rides, but has used up more than `spent_share` of the time for which it does.
  [[nodiscard]] bool is_tight() const;
  /// It fails or is tight.
  [[nodiscard]] bool wants_more() const { return outcome == Outcome::Fails || is_tight(); }
};

inline constexpr double falls_share = 0.99;
/// Electrolytic capacitors may have a fifth less than printed when new, and lose more: size for 0.8
/// C or less. The time that a load rides out of its own capacitors is as uncertain. Read (public
/// application note on hold-up capacitors).
inline constexpr double spent_share = 0.8;

/// "in range throughout", "rides through", ...
[[nodiscard]] std::string_view in_words(Passage::Outcome outcome);

/// From the samples and the services of a record. The outcome is what the load itself did.
[[nodiscard]] Passage passage_of(const run::Record& record, const AcceptedRange& load,
                                 const SourceChange& change);
[[nodiscard]] std::vector<Passage> passages_of(const run::Record& record,
                                               const std::vector<AcceptedRange>& loads,
                                               const SourceChange& change);

}  // namespace tideover::question
