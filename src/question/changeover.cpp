#include "question/changeover.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "part/relay/relay.hpp"
#include "question/excerpt.hpp"
#include "question/laboratory.hpp"
#include "question/phrases.hpp"
#include "question/portion.hpp"

namespace tideover::question {

using build::Build;
using build::Timeline;
using run::Record;

namespace {

/// Shares of the work, from what the examples take.
constexpr double timelines_done = 0.4;
constexpr double rehearsals_done = 0.5;

const Passage& hardest(const std::vector<Passage>& all) {
  const Passage* found = &all.front();
  for (const Passage& one : all) found = &worse(*found, one);
  return *found;
}

bool is_harder(const std::vector<Passage>& a, const std::vector<Passage>& b) {
  return !a.empty() && &worse(hardest(b), hardest(a)) == &hardest(a);
}

bool is_same_kind(const SourceChange& a, const SourceChange& b) {
  return a.what == b.what && a.words == b.words && a.before == b.before;
}

std::string told_as(const std::string& timeline, quantity::Second at) {
  if (at.si() <= 0.0) return fmt::format("as in {}, at its start", timeline);
  return fmt::format("as in {}, {} from its start", timeline, show_time(at));
}

/// Why a run did not come to its end.
std::string trouble_of(const Record& record) {
  const hybrid::Outcome& outcome = record.outcome;
  const std::string why = outcome.why.empty() ? "no reason given" : outcome.why;
  if (outcome.time_s < 0.0) {
    return fmt::format("This build does not come to rest on the mains ({}): {}.", record.timeline,
                       why);
  }
  const std::string at = show_time(quantity::Second::of_si(outcome.time_s));
  if (outcome.ended == hybrid::Ended::Restless) {
    return fmt::format("{} switches on and off without end: {} could be followed for {} only.", why,
                       record.timeline, at);
  }
  return fmt::format("{} could not be continued after {}: {}.", record.timeline, at, why);
}

std::string_view brief_of(Draws draws) {
  return draws == Draws::Highest ? "highest draw" : "lowest draw";
}

/// The answer in the making.
class Workshop {
 public:
  Workshop(const Build& build, const run::Settings& settings, base::Progress& progress)
      : build_(build), settings_(settings), progress_(progress), timelines_(timelines_of(build)) {
    answer_.circumstances = circumstances_of(build).front();
    answer_.loads = accepted_ranges(build);
  }

  Changeovers answer() {
    run_timelines();
    if (!progress_.stop_asked()) rehearse();
    if (!progress_.stop_asked()) seek_capacitances();
    answer_.is_partial = progress_.stop_asked();
    return std::move(answer_);
  }

 private:
  void run_timelines();
  void gather(std::size_t timeline);
  void rehearse();
  void seek_capacitances();
  void seek_one(std::size_t change, std::size_t load, base::Progress& progress);
  [[nodiscard]] ChangeView view_of(std::string words, std::string brief, const Record& record,
                                   const SourceChange& change) const;
  [[nodiscard]] std::vector<std::string> relays_in(const Changeover& change) const;

  const Build& build_;
  const run::Settings& settings_;
  base::Progress& progress_;
  std::vector<Timeline> timelines_;
  std::vector<Record> records_;
  std::vector<std::size_t> origin_;                 ///< of every change: number of its timeline
  std::vector<std::vector<Rehearsal>> rehearsals_;  ///< of every change
  std::vector<std::vector<std::vector<Passage>>> tried_;  ///< of every rehearsal of every change
  Changeovers answer_;
};

ChangeView Workshop::view_of(std::string words, std::string brief, const Record& record,
                             const SourceChange& change) const {
  return {std::move(words), std::move(brief),
          trial_of(excerpt(record, change), answer_.circumstances),
          passages_of(record, answer_.loads, change)};
}

void Workshop::run_timelines() {
  std::vector<Experiment> experiments;
  for (const Timeline& timeline : timelines_) {
    experiments.push_back({&build_, timeline, answer_.circumstances, timeline.name});
  }
  Portion part(progress_, 0.0, timelines_done);
  records_ = carry_out(experiments, settings_, part);
  for (std::size_t t = 0; t < records_.size(); ++t) {
    gather(t);
    if (records_[t].is_partial || records_[t].outcome.ended == hybrid::Ended::AtTime) continue;
    answer_.troubles.push_back(trouble_of(records_[t]));
  }
}

void Workshop::gather(std::size_t timeline) {
  const Record& record = records_[timeline];
  for (const SourceChange& change : source_changes_of(record, build_)) {
    const auto known = std::ranges::find_if(
        answer_.changes, [&](const Changeover& one) { return is_same_kind(one.change, change); });
    ChangeView view =
        view_of(told_as(record.timeline, change.at), "in " + record.timeline, record, change);
    if (known == answer_.changes.end()) {
      answer_.changes.push_back({change, record.timeline, 1, {}, {}});
      answer_.changes.back().views.push_back(std::move(view));
      origin_.push_back(timeline);
      continue;
    }
    ++known->times;
    if (!is_harder(view.passages, known->views.front().passages)) continue;
    known->change = change;
    known->timeline = record.timeline;
    known->views.front() = std::move(view);
    origin_[static_cast<std::size_t>(known - answer_.changes.begin())] = timeline;
  }
}

void Workshop::rehearse() {
  const bool bursts = has_bursts(build_);
  rehearsals_.resize(answer_.changes.size());
  tried_.resize(answer_.changes.size());
  std::vector<Experiment> experiments;
  std::vector<std::pair<std::size_t, Draws>> of;  // change and draws, in their order
  for (std::size_t c = 0; c < answer_.changes.size(); ++c) {
    const SourceChange& change = answer_.changes[c].change;
    if (!change.stretch) continue;
    rehearsals_[c].reserve(2);  // experiments point into it
    for (const Draws draws : {Draws::Highest, Draws::Lowest}) {
      if (draws == Draws::Lowest && !bursts) continue;
      const Rehearsal& made = rehearsals_[c].emplace_back(
          rehearsal_of(build_, timelines_[origin_[c]], records_[origin_[c]], change, draws));
      experiments.push_back({&made.build, made.timeline, answer_.circumstances, change.words});
      of.emplace_back(c, draws);
    }
  }
  Portion part(progress_, timelines_done, rehearsals_done);
  const std::vector<Record> records = carry_out(experiments, settings_, part);
  for (std::size_t k = 0; k < records.size(); ++k) {
    const auto change = rehearsed(records[k], build_);
    if (!change) continue;
    ChangeView view = view_of(std::string(in_words(of[k].second)),
                              std::string(brief_of(of[k].second)), records[k], *change);
    tried_[of[k].first].push_back(view.passages);
    if (bursts) answer_.changes[of[k].first].views.push_back(std::move(view));
  }
}

std::vector<std::string> Workshop::relays_in(const Changeover& change) const {
  std::vector<std::string> names;
  for (const run::Event& event : change.views.front().trial.record.events) {
    if (dynamic_cast<const part::Relay*>(build_.find(event.part)) == nullptr) continue;
    if (std::ranges::find(names, event.part) == names.end()) names.push_back(event.part);
  }
  return names;
}

void Workshop::seek_one(std::size_t c, std::size_t load, base::Progress& progress) {
  Changeover& change = answer_.changes[c];
  const Passage* passage = nullptr;  // of the rehearsals: they are what is tried on
  for (const std::vector<Passage>& all : tried_[c]) {
    passage = passage == nullptr ? &all[load] : &worse(*passage, all[load]);
  }
  if (passage == nullptr || !passage->wants_more()) {
    HoldUp none{.load = answer_.loads[load].load, .passage = change.worst(load), .present = {}};
    none.remarks.push_back(
        "No capacitance was sought: tried by itself from a settled start, the "
        "load rides through this change.");
    change.hold_ups.push_back(std::move(none));
    return;
  }
  const HoldUpTask task{rehearsals_[c], *passage, relays_in(change), answer_.circumstances};
  if (auto found = find_hold_up(task, settings_, progress)) {
    change.hold_ups.push_back(std::move(*found));
  }
}

void Workshop::seek_capacitances() {
  std::vector<std::pair<std::size_t, std::size_t>> wanted;
  for (std::size_t c = 0; c < answer_.changes.size(); ++c) {
    for (std::size_t load = 0; load < answer_.loads.size(); ++load) {
      const bool wants = answer_.changes[c].worst(load).wants_more();
      if (wants && !rehearsals_[c].empty()) wanted.emplace_back(c, load);
    }
  }
  for (std::size_t k = 0; k < wanted.size() && !progress_.stop_asked(); ++k) {
    const double width = (1.0 - rehearsals_done) / static_cast<double>(wanted.size());
    const double from = rehearsals_done + width * static_cast<double>(k);
    Portion part(progress_, from, from + width);
    seek_one(wanted[k].first, wanted[k].second, part);
  }
}

}  // namespace

const Passage& Changeover::worst(std::size_t load) const {
  const Passage* found = &views.front().passages[load];
  for (const ChangeView& view : views) found = &worse(*found, view.passages[load]);
  return *found;
}

const ChangeView& Changeover::hardest_view() const {
  const ChangeView* found = &views.front();
  for (const ChangeView& view : views) {
    if (is_harder(view.passages, found->passages)) found = &view;
  }
  return *found;
}

bool Changeover::rides_through() const {
  return std::ranges::all_of(views, [](const ChangeView& view) {
    return std::ranges::none_of(view.passages, [](const Passage& passage) {
      return passage.outcome == Passage::Outcome::Fails;
    });
  });
}

bool Changeovers::rides_through() const {
  return troubles.empty() && std::ranges::all_of(changes, &Changeover::rides_through);
}

Changeovers changeover(const Build& build, const run::Settings& settings,
                       base::Progress& progress) {
  return Workshop(build, settings, progress).answer();
}

}  // namespace tideover::question
