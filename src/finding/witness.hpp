/// What the runs say of a part: its extremes, what lasts, and the ratings it exceeds.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "finding/finding.hpp"

namespace tideover::finding {

/// A value that a channel came to in one of the cases.
struct Reached {
  double value_si = 0.0;
  quantity::Second at;
  const Case* in = nullptr;  ///< never null
};
/// The worst of all cases, however short; nothing where no case has such a channel.
[[nodiscard]] std::optional<Reached> extreme(const Evidence& evidence, std::string_view part,
                                             std::string_view channel, Limits worse);
/// The worst that lasted, in all, for `lasts` in one case.
[[nodiscard]] std::optional<Reached> lasting_worst(
    const Evidence& evidence, std::string_view part, std::string_view channel, Limits worse,
    quantity::Second lasts = quantity::Second::of_si(1.0));

/// A rating exceeded for longer than it may be.
struct Exceeded {
  const run::Overload* overload = nullptr;  ///< never null
  const Case* in = nullptr;                 ///< never null
  /// "2 min in all, first 12 ms after the mains goes (storm, cells as they are, 18 degC)"
  [[nodiscard]] std::string words() const;
};
/// The worst of all cases; nothing where it is kept in all of them.
[[nodiscard]] std::optional<Exceeded> exceeded(const Evidence& evidence, std::string_view part,
                                               std::string_view rating);
/// Every rating exceeded, once, by its worst case; fed backwards is not among them.
[[nodiscard]] std::vector<Exceeded> all_exceeded(const Evidence& evidence);

/// The greatest current or voltage of a part, and how it comes to that.
struct Greatest {
  double value_si = 0.0;
  std::string why = {};
};
/// `by_sheet`, or what the runs show in excess of a rating, without its sign and times `scale`,
/// where that is more.
[[nodiscard]] Greatest or_exceeded(Greatest by_sheet, const Evidence& evidence,
                                   std::string_view part, std::string_view rating,
                                   double scale = 1.0);

/// "12 ms after the mains goes (storm, cells as they are, 18 degC)"
[[nodiscard]] std::string when_and_where(const Reached& reached);
[[nodiscard]] std::string when_and_where(quantity::Second at, const Case& in);

/// A rating and the channel it limits, as the part's kind names them.
struct Rated {
  std::string part;
  std::string_view channel;
  std::string_view rating;
  double limit_si = 0.0;
  Limits limits = Limits::Above;
  double scale = 1.0;  ///< the figures are those of the channel times this: per cell
};
/// Figures, margin and answer, and where they were found; words are yet to come. What exceeds the
/// rating for no longer than it stands is tight at most. Nothing without a run.
struct Judged {
  Finding finding;
  std::string found;  ///< when_and_where() of the worst
};
[[nodiscard]] std::optional<Judged> judge_rated(
    const Evidence& evidence, const Rated& rated,
    quantity::Second lasts = quantity::Second::of_si(1.0));

}  // namespace tideover::finding
