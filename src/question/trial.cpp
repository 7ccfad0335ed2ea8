#include "question/trial.hpp"

#include "base/contract.hpp"
#include "quantity/show.hpp"

namespace tideover::question {

bool Trial::is_whole() const {
  return !record.is_partial && !record.stretches.empty() &&
         record.outcome.ended == hybrid::Ended::AtTime;
}

const Outage* Trial::judged_outage() const {
  const Outage* judged = nullptr;
  for (const Outage& outage : outages) {
    if (judged == nullptr || tells_more(outage, *judged)) judged = &outage;
  }
  return judged;
}

bool tells_more(const Outage& a, const Outage& b) {
  if (a.carried_whole != b.carried_whole) return b.carried_whole;
  // An outage that is carried whole says the more the longer it is.
  if (a.carried_whole) return a.carried > b.carried;
  // Whether it takes 40 ms or 140 ms: neither is carried across the loss of mains.
  const bool are_both_at_once = a.carried.si() < at_loss_s && b.carried.si() < at_loss_s;
  return !are_both_at_once && a.carried < b.carried;
}

std::array<run::Circumstances, 3> circumstances_of(const build::Build& build) {
  const quantity::Temperature cold = build.needs.ambient.low();
  const quantity::Temperature warm = build.needs.ambient.high();
  return {run::Circumstances{.ambient = cold + 0.5 * (warm - cold)},
          run::Circumstances{.ambient = cold, .cells_aged = true},
          run::Circumstances{.ambient = warm}};
}

std::vector<build::Timeline> timelines_of(const build::Build& build) {
  return build.timelines.empty() ? std::vector{run::usual_timeline()} : build.timelines;
}

std::string in_words(const run::Circumstances& circumstances) {
  const std::string cells =
      circumstances.cells_aged ? "cells at the end of their life, " : "cells as they are, ";
  return cells + quantity::show(circumstances.ambient);
}

bool are_same(const run::Circumstances& a, const run::Circumstances& b) {
  return a.ambient == b.ambient && a.cells_aged == b.cells_aged;
}

Trial trial_of(run::Record record, const run::Circumstances& circumstances) {
  Trial trial{in_words(circumstances), circumstances, std::move(record), {}};
  trial.outages = outages_of(trial.record);
  return trial;
}

std::vector<Extremes> extremes_of(const std::vector<const Trial*>& trials) {
  std::vector<Extremes> all;
  for (std::size_t t = 0; t < trials.size(); ++t) {
    const run::Record& record = trials[t]->record;
    if (record.lowest.empty()) continue;
    if (all.empty()) {
      for (std::size_t c = 0; c < record.channels.size(); ++c) {
        all.push_back({record.channels[c],
                       {record.lowest[c].value_si, record.lowest[c].at, t},
                       {record.highest[c].value_si, record.highest[c].at, t}});
      }
      continue;
    }
    TIDEOVER_EXPECT(record.channels.size() == all.size(), "trials of one build");
    for (std::size_t c = 0; c < all.size(); ++c) {
      if (record.lowest[c].value_si < all[c].lowest.value_si) {
        all[c].lowest = {record.lowest[c].value_si, record.lowest[c].at, t};
      }
      if (record.highest[c].value_si > all[c].highest.value_si) {
        all[c].highest = {record.highest[c].value_si, record.highest[c].at, t};
      }
    }
  }
  return all;
}

}  // namespace tideover::question
