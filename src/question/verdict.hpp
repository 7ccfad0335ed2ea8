/// Needs against what the runs show: sentences, and what to change where something fails.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "finding/rules.hpp"
#include "question/standby.hpp"
#include "question/trial.hpp"

namespace tideover::question {

using finding::Answer;
using finding::tight_share;

/// What a judgement is about.
enum class Matter {
  Run,  ///< a run that could not be carried out or continued
  Outlast,
  Service,
  Recharge,
  Life,
  Change,   ///< a change of source, tried at other draws than the timelines show
  Finding,  ///< a rule of the trade
};
/// "run", "outlast", ...: for programs.
[[nodiscard]] std::string_view in_words(Matter matter);
/// One of the needs of the sheet: where nobody knows whether it is met, it is not met.
[[nodiscard]] bool is_need(Matter matter);

/// One need, or one finding that is no good news, under one circumstance.
struct Judgement {
  Matter about{};
  Answer answer{};
  std::string sentence = {};  ///< what came out
  std::string remedy = {};    ///< what to change, with part and number; empty where it holds
  /// Of a finding; null for a need.
  const finding::Rule* rule = nullptr;
  std::string brief = {};  ///< of a finding that can do harm, for the headline: "f_sea blows"

  /// The rule's key or the matter: "charge_voltage", "outlast".
  [[nodiscard]] std::string_view key() const;
  /// Something is harmed or wrong, whatever else is well: said before anything else.
  [[nodiscard]] bool is_harm() const { return rule != nullptr && rule->is_harm; }
};

struct Verdict {
  Answer outcome = Answer::Unknown;   ///< the worst: Fails, then Unknown, then Tight
  bool states_needs = false;          ///< the sheet asks for something that can be judged
  bool is_met = true;                 ///< nothing fails, and every need stated is known to be met
  std::vector<std::string> headline;  ///< harm, carried for how long, full again when
  std::vector<Judgement> judgements;  ///< needs, and findings that fail or are tight; what fails
                                      ///< first, then unknown, tight, holds
  std::vector<finding::Found> findings;  ///< all of them, worst first
};

/// What the verdict is passed on.
struct Evidence {
  const build::Build& build;
  const Trial& usual;  ///< of the timeline that leads: as is, at the end of life, in the heat
  const Trial& worn;
  const Trial& hot;
  const std::vector<HeadRoom>& head_room;
  std::span<const Trial> others = {};  ///< of all other timelines

  /// All that were tried.
  [[nodiscard]] std::vector<const Trial*> trials() const;
  /// Those of one set of circumstances.
  [[nodiscard]] std::vector<const Trial*> trials(const run::Circumstances& under) const;
  /// What the rules are asked of: every trial that has begun.
  [[nodiscard]] finding::Evidence for_rules() const;
};
[[nodiscard]] Verdict judge(const Evidence& evidence);

/// Puts more judgements in, each at its place, and says again what comes of all.
void add_judgements(std::vector<Judgement> some, Verdict& verdict);

}  // namespace tideover::question
