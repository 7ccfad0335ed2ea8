#include "question/judge_needs.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include "part/charger/charger.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

using quantity::Second;

namespace {

/// A pack's cut-off this soon after the first load lost, or before it, is what ended the run.
constexpr double same_end_s = 300.0;

const part::Pack* find_pack(const build::Build& build) {
  for (const auto& part : build.parts) {
    if (const auto* const pack = dynamic_cast<const part::Pack*>(part.get())) return pack;
  }
  return nullptr;
}

const part::Charger* find_charger(const build::Build& build) {
  for (const auto& part : build.parts) {
    if (const auto* const charger = dynamic_cast<const part::Charger*>(part.get())) return charger;
  }
  return nullptr;
}

Answer answer_of(double reached_s, double asked_s, bool more_is_better) {
  const double margin = more_is_better ? reached_s / asked_s - 1.0 : 1.0 - reached_s / asked_s;
  if (margin < 0.0) return Answer::Fails;
  return margin < tight_share ? Answer::Tight : Answer::Holds;
}

/// Which part has to change for the supply to last longer, and by how much.
std::string how_to_last(const Evidence& evidence, const Outage& outage) {
  for (const Serving& serving : outage.servings) {
    if (!serving.served_before) {
      return serving.load + " is not even served with the mains present: look at its voltage.";
    }
  }
  const part::Pack* const pack = find_pack(evidence.build);
  const double asked_s = evidence.build.needs.outlast.si();
  const bool pack_is_empty =
      outage.cut_off && outage.cut_off->si() <= outage.carried.si() + same_end_s;
  if (pack == nullptr || !pack_is_empty || outage.carried.si() <= at_loss_s) {
    if (outage.ended_by.empty()) return "Look at what happens at that instant.";
    return "It ends when " + outage.ended_by + ": start there.";
  }
  const double wanted =
      std::ceil(pack->parallel * (1.0 + tight_share) * asked_s / outage.carried.si());
  const auto parallel = std::max(static_cast<int>(wanted), pack->parallel + 1);
  return fmt::format(
      "{}: {} cells side by side instead of {} (parallel = {}), or cells of {:.0f} % more "
      "capacity.",
      pack->name, parallel, pack->parallel, parallel,
      std::max(5.0, 100.0 * ((1.0 + tight_share) * asked_s / outage.carried.si() - 1.0)));
}

Judgement judge_outlast_of(const Evidence& evidence, const Trial& trial) {
  Judgement judgement{.about = "outlast", .answer = Answer::Unknown};
  const Second asked = evidence.build.needs.outlast.nominal();
  const Outage* const outage = trial.judged_outage();
  if (outage == nullptr || outage->servings.empty()) {
    judgement.sentence = "No run shows how long the loads are carried (" + trial.words + ").";
    return judgement;
  }
  const std::string devices = devices_in_words(outage->servings);
  judgement.sentence = fmt::format("{} served for {}{}; {} asked for ({}).", devices,
                                   outage->carried_whole ? "at least " : "",
                                   show_time(outage->carried), show_time(asked), trial.words);
  judgement.sentence.front() = static_cast<char>(std::toupper(judgement.sentence.front()));
  if (outage->carried_whole && outage->carried < asked) return judgement;
  judgement.answer =
      outage->carried_whole ? Answer::Holds : answer_of(outage->carried.si(), asked.si(), true);
  if (judgement.answer != Answer::Holds) judgement.remedy = how_to_last(evidence, *outage);
  return judgement;
}

std::string how_to_fill(const Evidence& evidence, const Outage& outage, bool is_cold) {
  const part::Charger* const charger = find_charger(evidence.build);
  if (charger == nullptr) return "Nothing in this build is a charger.";
  const double asked_s = evidence.build.needs.recharge.si();
  std::string text = charger->name + ": ";
  if (outage.full_after) {
    const double factor = (1.0 + tight_share) * outage.full_after->si() / asked_s;
    text +=
        fmt::format("current {} instead of {}", quantity::show(factor * charger->current.nominal()),
                    quantity::show(charger->current.nominal()));
  } else {
    text += is_cold ? "see whether it waits for the cells to be warm enough"
                    : "see whether its adapter gives enough for the loads and for charging";
  }
  for (const HeadRoom& room : evidence.head_room) {
    text += fmt::format("; {} gives up to {:.0f} % of its rating", room.adapter,
                        100.0 * room.lasting.value_si);
  }
  return text + ".";
}

Judgement judge_recharge_of(const Evidence& evidence, const Trial& trial) {
  Judgement judgement{.about = "recharge", .answer = Answer::Unknown};
  const Second asked = evidence.build.needs.recharge.nominal();
  const Outage* const outage = trial.judged_outage();
  if (outage == nullptr || (!outage->full_after && !outage->waited_for_full)) {
    judgement.sentence =
        "No run shows how long the pack takes to be full again (" + trial.words + ").";
    return judgement;
  }
  if (outage->full_after) {
    judgement.sentence = fmt::format("Full again {} after the mains is back; {} asked for ({}).",
                                     show_time(*outage->full_after), show_time(asked), trial.words);
    judgement.answer = answer_of(outage->full_after->si(), asked.si(), false);
  } else {
    judgement.sentence = "The pack is never full again (" + trial.words + ").";
    judgement.answer = Answer::Fails;
  }
  if (judgement.answer != Answer::Holds) {
    const bool is_cold = trial.circumstances.ambient.celsius() < 5.0;
    judgement.remedy = how_to_fill(evidence, *outage, is_cold);
  }
  return judgement;
}

/// How deep and how long the dip was that a load did not ride through is for a closer look; here
/// its length against what the load rides through.
std::string how_to_ride(const build::Build& build, const std::string& load) {
  const auto* const part = dynamic_cast<const part::Load*>(build.find(load));
  if (part == nullptr) return {};
  return fmt::format(
      "{}: its input is below {} for longer than the {} it rides through; a capacitor across its "
      "supply, or a changeover that acts sooner.",
      load, quantity::show(part->accepts.low()), quantity::show(part->rides.nominal()));
}

/// One load's restarts at one kind of instant, over all runs.
struct Restart {
  const Serving* serving = nullptr;
  const Interruption* longest = nullptr;
  const Trial* trial = nullptr;
  int times = 0;
};

void note_restart(std::vector<Restart>& restarts, const Restart& one) {
  const auto same = std::ranges::find_if(restarts, [&](const Restart& known) {
    return known.serving->load == one.serving->load && known.longest->when == one.longest->when;
  });
  if (same == restarts.end()) {
    restarts.push_back(one);
    return;
  }
  const int times = same->times + 1;
  if (one.longest->length() > same->longest->length()) *same = one;
  same->times = times;
}

Judgement judge_restart(const Evidence& evidence, const Restart& restart) {
  return {"service", Answer::Fails,
          fmt::format("{} restarts {}: {}{} without service ({}).", restart.serving->load,
                      in_words(restart.longest->when), restart.times > 1 ? "up to " : "",
                      show_time(restart.longest->length()), restart.trial->words),
          how_to_ride(evidence.build, restart.serving->load)};
}

}  // namespace

std::vector<Judgement> judge_runs(const Evidence& evidence) {
  std::vector<Judgement> found;
  for (const Trial* trial : {&evidence.usual, &evidence.worn, &evidence.hot}) {
    if (trial->is_whole()) continue;
    const hybrid::Outcome& outcome = trial->record.outcome;
    Judgement judgement{.about = "run", .answer = Answer::Fails};
    if (trial->record.is_partial) {
      judgement.answer = Answer::Unknown;
      judgement.sentence = "The run was stopped before its end (" + trial->words + ").";
    } else if (outcome.time_s < 0.0) {
      judgement.sentence = fmt::format(
          "This build does not come to rest on the mains, so no outage could be run ({}): {}.",
          trial->words, outcome.why.empty() ? "no reason given" : outcome.why);
    } else {
      judgement.sentence = fmt::format("The run could not be continued after {} ({}): {}.",
                                       show_time(Second::of_si(outcome.time_s)), trial->words,
                                       outcome.why.empty() ? "no reason given" : outcome.why);
    }
    found.push_back(std::move(judgement));
  }
  return found;
}

std::vector<Judgement> judge_outlast(const Evidence& evidence) {
  if (!evidence.build.needs.outlast.given) return {};
  return {judge_outlast_of(evidence, evidence.usual), judge_outlast_of(evidence, evidence.worn)};
}

std::vector<Judgement> judge_recharge(const Evidence& evidence) {
  if (!evidence.build.needs.recharge.given) return {};
  return {judge_recharge_of(evidence, evidence.usual), judge_recharge_of(evidence, evidence.worn)};
}

std::vector<Judgement> judge_service(const Evidence& evidence) {
  std::vector<Restart> restarts;
  for (const Trial* trial : {&evidence.usual, &evidence.worn, &evidence.hot}) {
    for (const Outage& outage : trial->outages) {
      for (const Serving& serving : outage.servings) {
        for (const Interruption& one : serving.interruptions) {
          note_restart(restarts, {&serving, &one, trial, 1});
        }
      }
    }
  }
  std::vector<Judgement> found;
  for (const Restart& restart : restarts) found.push_back(judge_restart(evidence, restart));
  return found;
}

}  // namespace tideover::question
