/// What a part or lead carried in the runs, whichever way round.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "finding/witness.hpp"

namespace tideover::finding {

/// Contacts, bars, leads and fuses warm up over many seconds: a start is no load.
inline constexpr quantity::Second warms_up = quantity::Second::of_si(10.0);

/// The largest size of a current that lasted for `lasts` in all in one case, as a figure above
/// zero; nothing without samples.
[[nodiscard]] std::optional<Reached> most_carried(const Evidence& evidence, std::string_view part,
                                                  std::string_view channel,
                                                  quantity::Second lasts = warms_up);

/// What a part carried, as a figure above zero, and where in the runs.
struct Carried {
  double size_a = 0.0;
  std::string when;
  bool is_too_much = false;  ///< the runs watched `rating` and saw it exceeded
};
/// While it warmed up; or, where the watch of the runs, which knows how long it stands more, saw
/// its rating exceeded, on average meanwhile.
[[nodiscard]] std::optional<Carried> carried_by(const Evidence& evidence, std::string_view part,
                                                std::string_view channel, std::string_view rating);

/// A rated current that may be the kind's own guess.
struct RatedCurrent {
  std::string part;
  std::string key;      ///< "contact_rated", for the advice and for what is unknown
  std::string channel;  ///< "contact current"
  std::string rating;   ///< by which the runs watch it
  std::string carries;  ///< "the contact of swap", at the beginning of a sentence
  const quantity::Value<quantity::Ampere>* rated = nullptr;  ///< never null
};
/// Against what it carried while it warmed up, and against the watch of the runs, which knows how
/// long it stands more. Unknown where nothing is stated. Nothing without a run.
[[nodiscard]] std::optional<Finding> judge_current(const Evidence& evidence,
                                                   const RatedCurrent& current);

/// "4.5 A", two digits, not below: enough to choose a part by.
[[nodiscard]] std::string next_larger(quantity::Ampere least);

}  // namespace tideover::finding
