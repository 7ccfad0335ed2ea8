/// Needs against what the runs show: sentences, and what to change where something fails.
#pragma once

#include <string>
#include <vector>

#include "question/standby.hpp"
#include "question/trial.hpp"

namespace tideover::question {

enum class Answer {
  Holds,
  Tight,  ///< met, by less than `tight_share` of what is asked
  Fails,
  Unknown,  ///< the runs cannot tell
};
[[nodiscard]] std::string_view in_words(Answer answer);

/// A need met by less than a tenth is tight: measured capacity and draw are seldom known better.
/// Common practice, no source.
inline constexpr double tight_share = 0.1;

/// One need, or one rating, under one circumstance.
struct Judgement {
  std::string about;  ///< "outlast", "recharge", "service", "rating", "board", "run"
  Answer answer{};
  std::string sentence;  ///< what came out
  std::string remedy;    ///< what to change, naming the part and the number; empty where it holds
};

struct Verdict {
  Answer outcome = Answer::Unknown;   ///< the worst: Fails, then Unknown, then Tight
  std::vector<std::string> headline;  ///< carried for how long, full again when
  std::vector<Judgement> judgements;  ///< what fails first, then unknown, tight, holds
};

/// What the verdict is passed on.
struct Evidence {
  const build::Build& build;
  const Trial& usual;
  const Trial& worn;
  const Trial& hot;
  const std::vector<HeadRoom>& head_room;
};
[[nodiscard]] Verdict judge(const Evidence& evidence);

}  // namespace tideover::question
