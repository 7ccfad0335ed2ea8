#include "question/judge_needs.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/calming.hpp"
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

Answer answer_of(double reached_s, double asked_s, bool more_is_better) {
  const double margin = more_is_better ? reached_s / asked_s - 1.0 : 1.0 - reached_s / asked_s;
  if (margin < 0.0) return Answer::Fails;
  return margin < tight_share ? Answer::Tight : Answer::Holds;
}

/// A load that an outage finds without service.
std::string unserved_before(const Outage& outage) {
  for (const Serving& serving : outage.servings) {
    if (!serving.served_before) return serving.load;
  }
  return {};
}

/// Which part has to change for the supply to last longer, and by how much.
std::string how_to_last(const Evidence& evidence, const Outage& outage) {
  const part::Pack* const pack = build::first_of<part::Pack>(evidence.build);
  const double asked_s = evidence.build.needs.outlast.si();
  const bool pack_is_empty =
      outage.cut_off && outage.cut_off->si() <= outage.carried.si() + same_end_s;
  if (pack == nullptr || !pack_is_empty || outage.carried.si() <= at_loss_s) {
    if (pack == nullptr) return "No pack in this build takes over when the mains goes.";
    if (outage.ended_by.empty() && outage.carried.si() > at_loss_s) {
      return "A device is lost before the pack is cut off: see how low its input goes as the pack "
             "empties; a higher voltage, less drop on the way, or a converter before it.";
    }
    if (outage.ended_by.empty()) {
      return "What should take over does so too late or not at all: see the changeover in the "
             "report.";
    }
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

/// One outage of one trial.
struct Case {
  const Trial* trial = nullptr;
  const Outage* outage = nullptr;
};

/// The outage that says most about how long loads are carried, over all timelines.
Case hardest(const std::vector<const Trial*>& trials) {
  Case found;
  for (const Trial* trial : trials) {
    const Outage* const outage = trial->judged_outage();
    if (outage == nullptr || outage->servings.empty()) continue;
    if (found.outage == nullptr || tells_more(*outage, *found.outage)) found = {trial, outage};
  }
  return found;
}

Judgement judge_outlast_of(const Evidence& evidence, const Trial& like) {
  Judgement judgement{.about = Matter::Outlast, .answer = Answer::Unknown};
  const Second asked = evidence.build.needs.outlast.nominal();
  const auto [trial, outage] = hardest(evidence.trials(like.circumstances));
  if (outage == nullptr) {
    judgement.sentence = "No run shows how long the loads are carried (" + like.words + ").";
    judgement.remedy = like.record.is_partial
                           ? "let the work go on to its end."
                           : "a timeline whose mains is absent until all loads are lost.";
    return judgement;
  }
  const std::string devices = devices_in_words(outage->servings);
  if (const std::string unserved = unserved_before(*outage); !unserved.empty()) {
    judgement.answer = Answer::Fails;
    judgement.sentence = fmt::format(
        "{} is not served even before the mains goes; {} asked for "
        "({}).",
        unserved, show_time(asked), trial->words);
    judgement.remedy = "look at the voltage at " + unserved + " with the mains present.";
    return judgement;
  }
  judgement.sentence = fmt::format("{} served for {}{}; {} asked for ({}).", devices,
                                   outage->carried_whole ? "at least " : "",
                                   show_time(outage->carried), show_time(asked), trial->words);
  judgement.sentence.front() = static_cast<char>(std::toupper(judgement.sentence.front()));
  if (outage->carried_whole && outage->carried < asked) {
    judgement.remedy = "a timeline with an outage of " + show_time(asked) + " or more.";
    return judgement;
  }
  judgement.answer =
      outage->carried_whole ? Answer::Holds : answer_of(outage->carried.si(), asked.si(), true);
  if (judgement.answer != Answer::Holds) judgement.remedy = how_to_last(evidence, *outage);
  return judgement;
}

/// What keeps a charger from ever reaching its voltage, if its input does.
std::string out_of_reach(const part::Charger& charger, const Trial& trial) {
  using part::Topology;
  const int channel = trial.record.find(charger.name, "input voltage");
  const bool goes_down =
      charger.topology == Topology::StepDown || charger.topology == Topology::Linear;
  if (channel < 0 || !goes_down || trial.record.highest.empty()) return {};
  const auto given =
      quantity::Volt::of_si(trial.record.highest[static_cast<std::size_t>(channel)].value_si);
  const auto wanted = charger.lowest_input(charger.voltage.nominal(), charger.full_below.nominal());
  if (given >= wanted) return {};
  return fmt::format(
      "it can only step down, needs {} at its input to reach {}, and gets {} at most: an adapter "
      "of more volts, or a charger that steps up",
      quantity::show(wanted), quantity::show(charger.voltage.nominal()), quantity::show(given));
}

std::string how_to_fill(const Evidence& evidence, const Case& slowest) {
  const part::Charger* const charger = build::first_of<part::Charger>(evidence.build);
  if (charger == nullptr) return "Nothing in this build is a charger.";
  std::string text = charger->name + ": ";
  if (const std::string reach = out_of_reach(*charger, *slowest.trial); !reach.empty()) {
    return text + reach + ".";
  }
  if (slowest.outage->full_after) {
    const double factor =
        (1.0 + tight_share) * slowest.outage->full_after->si() / evidence.build.needs.recharge.si();
    text +=
        fmt::format("current {} instead of {}", quantity::show(factor * charger->current.nominal()),
                    quantity::show(charger->current.nominal()));
  } else if (slowest.trial->circumstances.ambient.celsius() < 5.0) {
    text += "see whether it waits for the cells to be warm enough";
  } else {
    text += "see whether its adapter gives enough for the loads and for charging";
  }
  for (const HeadRoom& room : evidence.head_room) {
    text += fmt::format("; {} gives up to {:.0f} % of its rating", room.adapter,
                        100.0 * room.lasting.value_si);
  }
  return text + ".";
}

/// The recharge that takes longest; one that was waited for in vain before all others.
Case slowest_recharge(const std::vector<const Trial*>& trials) {
  Case found;
  for (const Trial* trial : trials) {
    for (const Outage& outage : trial->outages) {
      if (!outage.full_after && !outage.waited_for_full) continue;
      const bool is_slower =
          found.outage == nullptr || !outage.full_after ||
          (found.outage->full_after && *outage.full_after > *found.outage->full_after);
      if (is_slower) found = {trial, &outage};
      if (!found.outage->full_after) return found;
    }
  }
  return found;
}

Judgement judge_recharge_of(const Evidence& evidence, const Trial& like) {
  Judgement judgement{.about = Matter::Recharge, .answer = Answer::Unknown};
  const Second asked = evidence.build.needs.recharge.nominal();
  const Case slowest = slowest_recharge(evidence.trials(like.circumstances));
  if (slowest.outage == nullptr) {
    judgement.sentence =
        "No run shows how long the pack takes to be full again (" + like.words + ").";
    judgement.remedy = like.record.is_partial
                           ? "let the work go on to its end."
                           : "a timeline in which the mains comes back until the pack is full.";
    return judgement;
  }
  const auto& full_after = slowest.outage->full_after;
  if (full_after) {
    judgement.sentence =
        fmt::format("Full again {} after the mains is back; {} asked for ({}).",
                    show_time(*full_after), show_time(asked), slowest.trial->words);
    judgement.answer = answer_of(full_after->si(), asked.si(), false);
  } else {
    judgement.sentence = "The pack is never full again (" + slowest.trial->words + ").";
    judgement.answer = Answer::Fails;
  }
  if (judgement.answer != Answer::Holds) judgement.remedy = how_to_fill(evidence, slowest);
  return judgement;
}

/// How deep and how long the dip was that a load did not ride through is for a closer look; here
/// its length against what the load rides through.
std::string how_to_ride(const build::Build& build, const std::string& load,
                        Interruption::When when) {
  const auto* const part = dynamic_cast<const part::Load*>(build.find(load));
  if (part == nullptr) return {};
  if (when == Interruption::When::During) {
    return fmt::format(
        "{}: what feeds it must stay above {} while it draws its most, to the end: a higher "
        "voltage, less drop on the way, or a converter before it.",
        load, quantity::show(part->accepts.low()));
  }
  return fmt::format(
      "{}: its input is below {} for longer than the {} it rides through; a changeover that acts "
      "sooner, or a capacitor across its supply, where `changeover` finds one that is enough.",
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
  return {Matter::Service, Answer::Fails,
          fmt::format("{} restarts {}: {}{} without service ({}).", restart.serving->load,
                      in_words(restart.longest->when), restart.times > 1 ? "up to " : "",
                      show_time(restart.longest->length()), restart.trial->words),
          how_to_ride(evidence.build, restart.serving->load, restart.longest->when)};
}

}  // namespace

std::vector<Judgement> judge_runs(const Evidence& evidence) {
  std::vector<Judgement> found;
  std::size_t stopped = 0;
  for (const Trial* trial : evidence.trials()) {
    if (trial->is_whole()) continue;
    if (trial->record.is_partial) {
      ++stopped;
      continue;
    }
    const hybrid::Outcome& outcome = trial->record.outcome;
    Judgement judgement{.about = Matter::Run, .answer = Answer::Fails};
    if (outcome.time_s < 0.0) {
      judgement.sentence = fmt::format(
          "This build does not come to rest on the mains, so no outage could be run ({}): {}.",
          trial->words, outcome.why.empty() ? "no reason given" : outcome.why);
    } else if (outcome.ended == hybrid::Ended::Restless) {
      judgement.sentence =
          fmt::format("{} switches on and off without end: the run goes no further than {} ({}).",
                      outcome.why, show_time(Second::of_si(outcome.time_s)), trial->words);
    } else {
      judgement.sentence = fmt::format("The run could not be continued after {} ({}): {}.",
                                       show_time(Second::of_si(outcome.time_s)), trial->words,
                                       outcome.why.empty() ? "no reason given" : outcome.why);
    }
    if (outcome.ended == hybrid::Ended::Restless) {
      judgement.remedy = finding::calmed_by(evidence.build, outcome.why);
    }
    found.push_back(std::move(judgement));
  }
  if (stopped > 0) {
    found.push_back({Matter::Run, Answer::Unknown,
                     fmt::format("{} stopped before {} end: what was not seen by then is "
                                 "not judged.",
                                 stopped == 1 ? "One run was" : counted(stopped, "run") + " were",
                                 stopped == 1 ? "its" : "their"),
                     "let the work go on to its end."});
  }
  return found;
}

std::vector<Judgement> judge_outlast(const Evidence& evidence) {
  if (!evidence.build.needs.outlast.given) return {};
  std::vector<Judgement> found{judge_outlast_of(evidence, evidence.usual)};
  if (evidence.worn.was_tried()) found.push_back(judge_outlast_of(evidence, evidence.worn));
  if (!evidence.hot.was_tried()) return found;
  // In the heat it is told only where it is worse: it needs no telling that it is the same.
  const Case usual = hardest(evidence.trials(evidence.usual.circumstances));
  const Case hot = hardest(evidence.trials(evidence.hot.circumstances));
  const bool is_shorter = hot.outage != nullptr && usual.outage != nullptr &&
                          !hot.outage->carried_whole &&
                          hot.outage->carried.si() < 0.95 * usual.outage->carried.si();
  if (is_shorter) found.push_back(judge_outlast_of(evidence, evidence.hot));
  return found;
}

std::vector<Judgement> judge_recharge(const Evidence& evidence) {
  if (!evidence.build.needs.recharge.given) return {};
  std::vector<Judgement> found{judge_recharge_of(evidence, evidence.usual)};
  if (evidence.worn.was_tried()) found.push_back(judge_recharge_of(evidence, evidence.worn));
  return found;
}

std::vector<Judgement> judge_life(const Evidence& evidence) {
  const Second asked = evidence.build.needs.life.nominal();
  const part::Pack* const pack = build::first_of<part::Pack>(evidence.build);
  if (!evidence.build.needs.life.given || pack == nullptr) return {};
  Judgement judgement{.about = Matter::Life, .answer = Answer::Unknown};
  const Second lives = pack->cell.life.nominal();
  if (lives.si() <= 0.0) {
    judgement.sentence = fmt::format(
        "Whether the cells of {} serve for {} is not known: how long they live is not stated.",
        pack->name, show_time(asked));
    judgement.remedy = fmt::format(
        "{}: say `life` of its cell, the time until it is worn out kept charged and warm as here; "
        "the maker's sheet or a comparable pack tells.",
        pack->name);
    return {judgement};
  }
  judgement.answer = answer_of(lives.si(), asked.si(), true);
  judgement.sentence =
      fmt::format("The cells of {} are worn out after {}, as the sheet states; {} asked for.",
                  pack->name, show_time(lives), show_time(asked));
  if (judgement.answer != Answer::Holds) {
    judgement.remedy = pack->name +
                       ": plan for new cells, charge to a lower voltage, keep them "
                       "cooler.";
  }
  return {judgement};
}

std::vector<Judgement> judge_service(const Evidence& evidence) {
  std::vector<Restart> restarts;
  for (const Trial* trial : evidence.trials()) {
    for (const Outage& outage : trial->outages) {
      for (const Serving& serving : outage.servings) {
        for (const Interruption& one : serving.interruptions) {
          note_restart(restarts, {&serving, &one, trial, 1});
        }
      }
    }
  }
  std::vector<Judgement> found;
  found.reserve(restarts.size());
  for (const Restart& restart : restarts) found.push_back(judge_restart(evidence, restart));
  return found;
}

}  // namespace tideover::question
