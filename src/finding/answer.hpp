/// How a question about a build is answered.
#pragma once

#include <string_view>

namespace tideover::finding {

enum class Answer {
  Holds,
  Tight,  ///< met, by less than `tight_share` of what is asked
  Fails,
  Unknown,  ///< a value that decides it is not known
  Classed,  ///< neither good nor bad: a class, and what follows from it
};
/// "holds", "tight", "fails", "unknown", "class".
[[nodiscard]] std::string_view in_words(Answer answer);

/// A limit kept by less than a tenth is tight: measured capacity and draw are seldom known better.
/// Common practice, no source.
inline constexpr double tight_share = 0.1;

}  // namespace tideover::finding
