/// Needs against what the runs show: sentences, and what to change where something fails.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "question/standby.hpp"
#include "question/trial.hpp"
#include "finding/lead_loss.hpp"

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

/// What a judgement is about.
enum class Matter {
  Run,       ///< a run that could not be carried out or continued
  Polarity,  ///< something is fed backwards
  Broken,    ///< a fuse blows, a cut-out opens for good
  Rating,
  Outlast,
  Service,
  Recharge,
  Life,
  HeadRoom,
  Chatter,
  WireLoss,
};
/// "outlast", "rating", ...: for programs.
[[nodiscard]] std::string_view in_words(Matter matter);
/// One of the needs of the sheet: where nobody knows whether it is met, it is not met.
[[nodiscard]] bool is_need(Matter matter);
/// Something is harmed or wrong, whatever else is well: said before anything else.
[[nodiscard]] bool is_harm(Matter matter);

/// One need, or one rating, under one circumstance.
struct Judgement {
  Matter about{};
  Answer answer{};
  std::string sentence = {};  ///< what came out
  std::string remedy = {};    ///< what to change, with part and number; empty where it holds
  std::string brief = {};     ///< of a harm, for the headline: "f_sea blows"
};

struct Verdict {
  Answer outcome = Answer::Unknown;   ///< the worst: Fails, then Unknown, then Tight
  bool states_needs = false;          ///< the sheet asks for something that can be judged
  bool is_met = true;                 ///< nothing fails, and every need stated is known to be met
  std::vector<std::string> headline;  ///< harm, carried for how long, full again when
  std::vector<Judgement> judgements;  ///< what fails first, then unknown, tight, holds
};

/// What the verdict is passed on.
struct Evidence {
  const build::Build& build;
  const Trial& usual;  ///< of the timeline that leads: as is, at the end of life, in the heat
  const Trial& worn;
  const Trial& hot;
  const std::vector<HeadRoom>& head_room;
  std::span<const Trial> others = {};  ///< of all other timelines
  std::span<const finding::WayLoss> ways = {};

  [[nodiscard]] std::vector<const Trial*> trials() const;
  /// Those of one set of circumstances.
  [[nodiscard]] std::vector<const Trial*> trials(const run::Circumstances& under) const;
};
[[nodiscard]] Verdict judge(const Evidence& evidence);

}  // namespace tideover::question
