#include "question/hold_up.hpp"

#include <algorithm>
#include <cmath>

#include "part/capacitor/sizing.hpp"
#include "part/load/load.hpp"
#include "part/preferred_value.hpp"
#include "question/hold_up_remarks.hpp"
#include "question/laboratory.hpp"
#include "question/portion.hpp"

namespace tideover::question {

using quantity::Farad;
using quantity::Second;
using quantity::Volt;

namespace {

/// Sizes tried at first, three and a bit between neighbours.
constexpr int first_sizes = 9;
/// Electrolytic capacitors, and the E6 series they are sold in, are of -20 %.
constexpr double least_of_printed = 0.8;

class Search {
 public:
  Search(const HoldUpTask& task, Fitting fitting, const run::Settings& settings,
         base::Progress& progress)
      : task_(task), fitting_(fitting), settings_(settings), progress_(progress) {}

  /// The least size that does, and its passage; nothing if none does.
  struct Found {
    double size_f;
    Passage passage;
  };
  std::optional<Found> find(double least_f);
  [[nodiscard]] bool was_stopped() const { return progress_.stop_asked(); }

 private:
  std::vector<Found> attempt(const std::vector<double>& sizes_f);
  [[nodiscard]] bool does(const Passage& passage) const;
  [[nodiscard]] std::optional<Passage> passage_in(const run::Record& record,
                                                  const build::Build& build) const;

  const HoldUpTask& task_;
  Fitting fitting_;
  const run::Settings& settings_;
  base::Progress& progress_;
};

std::vector<double> between(double low_f, double high_f, int count) {
  std::vector<double> sizes;
  for (int k = 1; k <= count; ++k) {
    sizes.push_back(low_f * std::pow(high_f / low_f, k / (count + 1.0)));
  }
  return sizes;
}

/// A load that rode narrowly is to ride with reserve.
bool Search::does(const Passage& passage) const {
  using Outcome = Passage::Outcome;
  const bool rides = passage.outcome == Outcome::InRange || passage.outcome == Outcome::Rides;
  return rides && (task_.passage.outcome == Outcome::Fails || !passage.is_tight());
}

std::optional<Passage> Search::passage_in(const run::Record& record,
                                          const build::Build& build) const {
  const auto change = rehearsed(record, build);
  if (!change || !change->is_over || record.is_partial) return std::nullopt;
  return passage_of(record, task_.passage.accepts, *change);
}

/// The sizes in rising order with the worst that became of them; those that came to nothing failed.
std::vector<Search::Found> Search::attempt(const std::vector<double>& sizes_f) {
  std::vector<build::Build> builds;
  builds.reserve(sizes_f.size() * task_.rehearsals.size());
  std::vector<Experiment> experiments;
  for (const double size_f : sizes_f) {
    for (const Rehearsal& one : task_.rehearsals) {
      builds.push_back(
          with_capacitor(one.build, task_.passage.accepts.load, Farad::of_si(size_f), fitting_));
      experiments.push_back({&builds.back(), one.timeline, task_.circumstances,
                             "a capacitor at " + task_.passage.accepts.load});
    }
  }
  const std::vector<run::Record> records = carry_out(experiments, settings_, progress_);
  std::vector<Found> tried;
  for (std::size_t k = 0; k < sizes_f.size(); ++k) {
    std::optional<Passage> worst;
    bool is_whole = true;
    for (std::size_t r = 0; r < task_.rehearsals.size(); ++r) {
      const std::size_t run = k * task_.rehearsals.size() + r;
      const auto passage = passage_in(records[run], builds[run]);
      is_whole = is_whole && passage;
      if (passage) worst = worst ? worse(*worst, *passage) : *passage;
    }
    Passage failed = task_.passage;
    failed.outcome = Passage::Outcome::Fails;
    tried.push_back({sizes_f[k], is_whole && worst ? *worst : failed});
  }
  return tried;
}

std::optional<Search::Found> Search::find(double least_f) {
  double low_f = least_f;
  double high_f = most_tried_f;
  std::vector<double> sizes_f = between(low_f, high_f, first_sizes - 2);
  sizes_f.insert(sizes_f.begin(), low_f);
  sizes_f.push_back(high_f);
  std::optional<Found> found;
  while (!was_stopped()) {
    const std::vector<Found> tried = attempt(sizes_f);
    const auto first =
        std::ranges::find_if(tried, [&](const Found& one) { return does(one.passage); });
    if (first != tried.end()) {
      found = *first;
      high_f = first->size_f;
    }
    if (!found) return std::nullopt;
    if (first != tried.begin()) low_f = std::prev(first)->size_f;
    if (high_f <= low_f * (1.0 + tried_share)) return found;
    sizes_f = between(low_f, high_f, 2);
  }
  return std::nullopt;
}

/// The time that the capacitor is to bridge; of the time that the load rides, what is reckoned
/// with.
Second bridged_of(const Passage& passage, bool with_reserve) {
  const double share = with_reserve ? spent_share : 1.0;
  return std::max(Second{}, passage.without_source - share * passage.accepts.rides);
}

void add_formula(HoldUp& answer) {
  // Behind a diode the load is fed otherwise, and for another time.
  const Passage& asked =
      answer.fitting == Fitting::BehindDiode ? answer.with_found : answer.passage;
  answer.bridged = bridged_of(asked, answer.passage.outcome != Passage::Outcome::Fails);
  if (const auto closed = closed_hold_up(asked, answer.bridged)) {
    answer.closed = std::max(Farad{}, *closed - answer.own);
  }
}

void choose(HoldUp& answer) {
  if (!answer.found) return;
  answer.buy = part::preferred_at_least(*answer.found / least_of_printed, part::Series::E6);
  constexpr double highest_rated_v = 80.0;
  answer.rated = part::rated_voltage_above(Volt::of_si(std::min(
      highest_rated_v, std::max(answer.passage.highest.si(), answer.with_found.highest.si()))));
}

}  // namespace

const Passage& worse(const Passage& a, const Passage& b) {
  const auto rank = [](const Passage& one) {
    using Outcome = Passage::Outcome;
    if (one.outcome == Outcome::Fails) return 3;
    if (one.outcome == Outcome::Rides) return 2;
    return one.outcome == Outcome::InRange ? 1 : 0;
  };
  if (rank(a) != rank(b)) return rank(a) > rank(b) ? a : b;
  if (a.out_of_range() != b.out_of_range()) return a.out_of_range() > b.out_of_range() ? a : b;
  return b.dip_share() > a.dip_share() ? b : a;
}

std::optional<Farad> closed_hold_up(const Passage& passage, Second bridged) {
  if (bridged.si() <= 0.0 || passage.draw.si() <= 0.0 || passage.before <= passage.accepts.low) {
    return std::nullopt;
  }
  const Farad first =
      part::hold_up_capacitance(passage.draw, bridged, passage.before, passage.accepts.low);
  const Volt step = part::usual_esr(first) * (passage.draw / passage.before);
  if (passage.before - step <= passage.accepts.low) return std::nullopt;
  return part::hold_up_capacitance(passage.draw, bridged, passage.before - step,
                                   passage.accepts.low);
}

std::optional<HoldUp> find_hold_up(const HoldUpTask& task, const run::Settings& settings,
                                   base::Progress& progress) {
  const build::Build& build = task.rehearsals.front().build;
  const std::string& name = task.passage.accepts.load;
  HoldUp answer{.load = name, .passage = task.passage, .present = capacitor_at(build, name)};
  const auto& load = dynamic_cast<const part::Load&>(*build.find(name));
  answer.own = load.input_capacitance.nominal();
  answer.is_constant_power = !load.draws_current.given && !load.draws_resistance.given;
  const bool can_help = task.passage.is_fed_again && task.passage.below.si() > 0.0;
  for (const Fitting fitting : {Fitting::AtLoad, Fitting::BehindDiode}) {
    if (!can_help || answer.found) break;
    Portion part(progress, fitting == Fitting::AtLoad ? 0.0 : 0.5, 1.0);
    Search search(task, fitting, settings, part);
    const auto found = search.find(least_tried_f);
    if (search.was_stopped()) return std::nullopt;
    if (!found) continue;
    answer.found = Farad::of_si(found->size_f);
    answer.fitting = fitting;
    answer.with_found = found->passage;
  }
  add_formula(answer);
  choose(answer);
  answer.remarks = hold_up_remarks(answer, task.relays);
  return answer;
}

}  // namespace tideover::question
