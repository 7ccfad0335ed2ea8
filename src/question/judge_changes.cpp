#include "question/judge_changes.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "question/changeover_phrases.hpp"

namespace tideover::question {

namespace {

using Outcome = Passage::Outcome;

/// It restarts in the timeline's own change, which the judgement of its service tells.
bool is_told(const Changeover& change, std::size_t load, const Prediction& prediction) {
  const Passage& own = change.views.front().passages[load];
  if (own.outcome != Outcome::Fails) return false;
  return std::ranges::any_of(prediction.trials(), [&](const Trial* trial) {
    return std::ranges::any_of(trial->outages, [&](const Outage& outage) {
      return std::ranges::any_of(outage.servings, [&](const Serving& serving) {
        return serving.load == own.accepts.load && !serving.interruptions.empty();
      });
    });
  });
}

std::string remedy_of(const Changeover& change, const std::string& load) {
  for (const HoldUp& answer : change.hold_ups) {
    if (answer.load != load || !answer.found) continue;
    return load + ": " + sentences_of(answer).front();
  }
  return load + ": a changeover that acts sooner, or a second path to it through a diode.";
}

Judgement judge_one(const Changeover& change, std::size_t load) {
  const Passage& worst = change.worst(load);
  const std::string& name = worst.accepts.load;
  return {Matter::Change, worst.outcome == Outcome::Fails ? Answer::Fails : Answer::Tight,
          fmt::format("When {}, {} {} ({}).", change.change.words, name, verdict_of(worst),
                      seen_in(change, load)),
          remedy_of(change, name)};
}

}  // namespace

std::vector<Judgement> judge_changes(const Changeovers& changes, const Prediction& prediction) {
  std::vector<Judgement> found;
  for (const Changeover& change : changes.changes) {
    for (std::size_t k = 0; k < changes.loads.size(); ++k) {
      if (!change.worst(k).wants_more() || is_told(change, k, prediction)) continue;
      found.push_back(judge_one(change, k));
    }
  }
  return found;
}

}  // namespace tideover::question
