#include "question/band_draw.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "finding/rules.hpp"
#include "question/calm.hpp"
#include "question/judge_needs.hpp"
#include "question/predict.hpp"
#include "run/circuit.hpp"

namespace tideover::question {

using build::Build;
using build::Timeline;
using Sort = BandKey::Sort;
using Need = NeedKey::Need;

namespace {

constexpr double never_si = std::numeric_limits<double>::infinity();
/// Of needs and margins: under all circumstances together.
constexpr int under_all = 0;

Timeline timeline_for(const Build& build) {
  const std::vector<Timeline> timelines = timelines_of(build);
  const auto judging = std::ranges::find_if(
      timelines, [&](const Timeline& one) { return can_judge(one, build.needs); });
  return judging == timelines.end() ? timelines.front() : *judging;
}

std::vector<WatchedExtreme> watched_in(const Build& build, const run::Circumstances& under) {
  const Build calm = without_bursts(build);
  const run::Circuit circuit = run::assemble(calm, under);
  std::vector<WatchedExtreme> watched;
  for (const part::Rating& rating : circuit.instruments.ratings) {
    if (rating.is_polarity) continue;
    const part::Channel& channel = circuit.instruments.channels[rating.channel];
    const std::string name = channel.name + (rating.is_upper ? ", highest" : ", lowest");
    const bool is_known = std::ranges::any_of(watched, [&](const WatchedExtreme& one) {
      return one.part == channel.part && one.name == name;
    });
    if (is_known) continue;
    watched.push_back({.part = channel.part,
                       .name = name,
                       .channel = rating.channel,
                       .is_highest = rating.is_upper,
                       .limit_si = rating.limit_si,
                       .measure = {channel.dimension, channel.is_temperature, false}});
  }
  return watched;
}

/// Times of the outage that says most.
void add_times(const Trial& trial, int under, DrawOutcome& outcome) {
  const Outage* const outage = trial.judged_outage();
  if (outage == nullptr) return;
  auto& numbers_si = outcome.numbers_si;
  if (!outage->servings.empty()) {
    numbers_si.push_back({{Sort::Carried, under}, outage->carried.si()});
  }
  if (outage->cut_off) numbers_si.push_back({{Sort::CutOff, under}, outage->cut_off->si()});
  if (outage->full_after) {
    numbers_si.push_back({{Sort::Recharge, under}, outage->full_after->si()});
  } else if (outage->waited_for_full) {
    numbers_si.push_back({{Sort::Recharge, under}, never_si});
  }
}

void add_extremes(const std::vector<WatchedExtreme>& watched, const Trial& trial, int under,
                  DrawOutcome& outcome) {
  for (const WatchedExtreme& one : watched) {
    if (one.channel >= trial.record.highest.size()) continue;
    const run::Extreme& extreme =
        one.is_highest ? trial.record.highest[one.channel] : trial.record.lowest[one.channel];
    outcome.numbers_si.push_back({{Sort::Extreme, under, one.part, one.name}, extreme.value_si});
  }
}

/// The smallest margin of each rule with each part, over all circumstances.
void add_margins(const std::vector<finding::Found>& findings, DrawOutcome& outcome) {
  std::map<BandKey, double> least;
  for (const auto& [rule, finding] : findings) {
    if (!finding.margin || !std::isfinite(*finding.margin)) continue;
    const BandKey key{Sort::Margin, under_all, finding.part, std::string(rule->key)};
    const auto [at, is_new] = least.emplace(key, *finding.margin);
    if (!is_new) at->second = std::min(at->second, *finding.margin);
  }
  outcome.numbers_si.insert(outcome.numbers_si.end(), least.begin(), least.end());
}

bool is_met(const Judgement& one) {
  return one.answer == Answer::Holds || one.answer == Answer::Tight;
}

void add_broken(const std::vector<finding::Found>& findings, DrawOutcome& outcome) {
  std::set<BrokenRule> broken;
  for (const auto& [rule, finding] : findings) {
    if (finding.answer == Answer::Fails) broken.insert({std::string(rule->key), finding.part});
  }
  outcome.broken.assign(broken.begin(), broken.end());
}

bool do_no_harm(const std::vector<finding::Found>& findings) {
  return std::ranges::none_of(findings, [](const finding::Found& found) {
    return found.rule->is_harm && found.finding.answer == Answer::Fails;
  });
}

std::vector<std::pair<NeedKey, bool>> needs_met(const Evidence& evidence,
                                                const std::vector<finding::Found>& findings) {
  std::vector<std::pair<NeedKey, bool>> met;
  for (const auto& [need, judged] : {std::pair{Need::Outlast, judge_outlast(evidence)},
                                     std::pair{Need::Recharge, judge_recharge(evidence)}}) {
    // One judgement as they are, one worn; what follows repeats one of them.
    for (std::size_t under = 0; under < std::min<std::size_t>(2, judged.size()); ++under) {
      met.push_back({{need, static_cast<int>(under)}, is_met(judged[under])});
    }
  }
  met.push_back({{Need::Service, under_all}, std::ranges::all_of(judge_service(evidence), is_met)});
  for (const Judgement& life : judge_life(evidence)) {
    met.push_back({{Need::Life, under_all}, is_met(life)});
  }
  met.push_back({{Need::NoHarm, under_all}, do_no_harm(findings)});
  const bool all = std::ranges::all_of(met, [](const auto& one) { return one.second; });
  met.push_back({{Need::All, under_all}, all});
  return met;
}

}  // namespace

BandTrial::BandTrial(const Build& build, run::Settings settings)
    : timeline_(timeline_for(build)), settings_(std::move(settings)) {
  const auto all = circumstances_of(build);
  circumstances_ = {all[0], all[1]};
  watched_ = watched_in(build, circumstances_[0]);
}

DrawOutcome BandTrial::carry_out(const build::Workpiece& piece, base::Progress& stop) const {
  DrawOutcome outcome;
  const bool contradicts = std::ranges::any_of(
      piece.build().parts, [](const auto& part) { return !part->contradictions().empty(); });
  if (contradicts) {
    outcome.came = DrawOutcome::Came::Contradicting;
    return outcome;
  }
  const Build calm = without_bursts(piece.build());
  std::vector<Trial> trials;
  for (const run::Circumstances& under : circumstances_) {
    trials.push_back(trial_of(run::run(calm, timeline_, under, settings_, stop), under));
    if (stop.stop_asked()) return {};
  }
  if (!std::ranges::all_of(trials, &Trial::is_whole)) outcome.came = DrawOutcome::Came::Stuck;
  // Rules that go by the sheet see the loads' bursts.
  finding::Evidence for_rules{piece.build(), {}};
  for (const Trial& trial : trials) {
    if (trial.record.outcome.time_s < 0.0) continue;
    for_rules.cases.push_back({trial.words, trial.circumstances, &trial.record});
  }
  const std::vector<finding::Found> findings = finding::check(for_rules);
  const std::vector<HeadRoom> no_head_room;
  outcome.needs = needs_met({calm, trials[0], trials[1], trials[0], no_head_room}, findings);
  if (outcome.came == DrawOutcome::Came::Stuck) {
    for (auto& [need, met] : outcome.needs) met = met && need.need == Need::Life;
    return outcome;
  }
  for (std::size_t under = 0; under < trials.size(); ++under) {
    add_times(trials[under], static_cast<int>(under), outcome);
    add_extremes(watched_, trials[under], static_cast<int>(under), outcome);
  }
  add_margins(findings, outcome);
  add_broken(findings, outcome);
  return outcome;
}

}  // namespace tideover::question
