#include "cell/match.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "cell/match_words.hpp"
#include "numeric/grouping.hpp"
#include "part/pack/cell_curves.hpp"

namespace tideover::cell {

using namespace quantity;

namespace {

/// The cells that are dealt out, in the lot's order.
struct Bench {
  std::vector<std::string> names;
  std::vector<double> capacity_c;
  std::vector<double> siemens;
  std::vector<double> leak_c;  ///< charge lost in 30 days from full
};

base::Problem problem_of(std::string text, std::string remedy) {
  return {{}, std::move(text), std::move(remedy)};
}

base::Problems check(const MatchWishes& wishes) {
  base::Problems wrong;
  constexpr int most = 1000;
  if (wishes.series < 1 || wishes.series > most || wishes.parallel < 1 || wishes.parallel > most) {
    wrong.push_back(problem_of("a pack of no cells", "series and parallel are 1 to 1000"));
  }
  const auto is_band = [](const std::optional<Ratio>& band) { return !band || band->si() > 0.0; };
  if (!is_band(wishes.resistance_within) || !is_band(wishes.self_discharge_within)) {
    wrong.push_back(problem_of("a band that allows nothing", "state a share above 0 %"));
  }
  if (wishes.load.si() < 0.0 || wishes.bleed.si() < 0.0) {
    wrong.push_back(problem_of("a load or a bleed below nothing", "state 0 if there is none"));
  }
  if (wishes.joined_at.si() < 0.0 || wishes.joined_at.si() > 1.0) {
    wrong.push_back(problem_of("a charge that no cell has", "state 0 % to 100 %"));
  }
  return wrong;
}

double leak_share(const Lot& lot, const JudgedCell& judged) {
  // One that seems to gain charge has lost none that can be seen.
  if (!judged.self_discharge) return lot.kind.self_discharge.si();
  return std::max(judged.self_discharge->per_month.si(), 0.0);
}

void put_on(Bench& bench, const Lot& lot, const JudgedLot& judged, std::size_t index,
            Match& match) {
  const TestedCell& cell = lot.cells[index];
  const double new_ohm = part::curves_of(lot.kind).half_charge_ohm;
  bench.names.push_back(cell.name);
  bench.capacity_c.push_back(cell.capacity->si());
  bench.siemens.push_back(1.0 / (cell.resistance ? cell.resistance->si() : new_ohm));
  bench.leak_c.push_back(leak_share(lot, judged.cells[index]) * cell.capacity->si());
  if (!cell.resistance) match.assumed.push_back(cell.name);
}

/// Sorts the lot out: what is fit goes on the bench, the rest is named.
Bench sort_out(const Lot& lot, const JudgedLot& judged, const MatchWishes& wishes, Match& match) {
  const auto needed =
      static_cast<std::size_t>(wishes.series) * static_cast<std::size_t>(wishes.parallel);
  const auto is_able = [&](std::size_t k, Fitness fitness) {
    return lot.cells[k].capacity && judged.cells[k].fitness == fitness;
  };
  std::size_t accepted = 0;
  for (std::size_t k = 0; k < lot.cells.size(); ++k) {
    if (is_able(k, Fitness::Accept)) ++accepted;
  }
  match.takes_doubtful = wishes.may_take_doubtful && accepted < needed;
  Bench bench;
  for (std::size_t k = 0; k < lot.cells.size(); ++k) {
    const std::string& name = lot.cells[k].name;
    if (judged.cells[k].fitness == Fitness::Reject) {
      match.rejected.push_back(name);
    } else if (!lot.cells[k].capacity) {
      match.unmeasured.push_back(name);
    } else if (is_able(k, Fitness::Doubt) && !match.takes_doubtful) {
      match.doubtful.push_back(name);
    } else {
      put_on(bench, lot, judged, k, match);
    }
  }
  return bench;
}

numeric::GroupingProblem problem_of(const Bench& bench, const MatchWishes& wishes) {
  numeric::GroupingProblem problem;
  problem.worth = bench.capacity_c;
  problem.groups = static_cast<std::size_t>(wishes.series);
  problem.each = static_cast<std::size_t>(wishes.parallel);
  // Conductances add up; their ratio is that of the resistances.
  if (wishes.resistance_within) {
    problem.bands.push_back(
        {bench.siemens, numeric::EvenBand::Measure::Ratio, wishes.resistance_within->si()});
  }
  if (wishes.self_discharge_within) {
    const double mean_c = std::accumulate(bench.capacity_c.begin(), bench.capacity_c.end(), 0.0) /
                          static_cast<double>(bench.capacity_c.size());
    problem.bands.push_back({bench.leak_c, numeric::EvenBand::Measure::Difference,
                             wishes.self_discharge_within->si() * mean_c * wishes.parallel});
  }
  return problem;
}

/// Time that a load of constant power runs from full until the weakest group is empty. With E the
/// rest voltage and Q the weakest group's charge, taken from each group g of charge Q_g:
///     t = 1/P sum over g of the integral of E from 1 - Q/Q_g to 1, times Q_g
Second run_time(const Lot& lot, const std::vector<double>& capacity_c, Watt load) {
  if (load.si() <= 0.0) return {};
  const part::CellCurves curves = part::curves_of(lot.kind);
  const double weakest_c = *std::ranges::min_element(capacity_c);
  double energy_j = 0.0;
  for (const double group_c : capacity_c) {
    const double left_share = 1.0 - weakest_c / group_c;
    energy_j += group_c * (curves.rest_v.integral(1.0) - curves.rest_v.integral(left_share));
  }
  return Second::of_si(energy_j / load.si());
}

Dealing dealing_of(const Lot& lot, const Bench& bench, const numeric::Grouping& made,
                   const MatchWishes& wishes) {
  const std::vector<double> capacity_c = numeric::group_sums(made.groups, bench.capacity_c);
  const std::vector<double> siemens = numeric::group_sums(made.groups, bench.siemens);
  const std::vector<double> leak_c = numeric::group_sums(made.groups, bench.leak_c);
  Dealing dealing;
  dealing.groups.reserve(made.groups.size());
  for (std::size_t g = 0; g < made.groups.size(); ++g) {
    MatchedGroup group;
    group.number = static_cast<int>(g) + 1;
    group.cells.reserve(made.groups[g].size());
    for (const std::size_t k : made.groups[g]) group.cells.push_back(bench.names[k]);
    group.capacity = Coulomb::of_si(capacity_c[g]);
    group.resistance = Ohm::of_si(1.0 / siemens[g]);
    group.self_discharge = Ratio::of_si(leak_c[g] / capacity_c[g]);
    dealing.groups.push_back(std::move(group));
  }
  dealing.weakest = Coulomb::of_si(made.weakest);
  dealing.spread = Coulomb::of_si(made.spread);
  dealing.run_time = run_time(lot, capacity_c, wishes.load);
  if (wishes.bleed.si() > 0.0) {
    // Joined at one share of charge, the weakest is full while the strongest still lacks the share
    // of the spread that was not yet in: so much is bled.
    dealing.first_balancing =
        Second::of_si((1.0 - wishes.joined_at.si()) * made.spread / wishes.bleed.si());
    const auto [least, most] = std::ranges::minmax_element(leak_c);
    dealing.monthly_balancing = Second::of_si((*most - *least) / wishes.bleed.si());
  }
  return dealing;
}

}  // namespace

base::Result<Match> match_lot(const Lot& lot, const JudgedLot& judged, const MatchWishes& wishes,
                              base::Progress& progress) {
  TIDEOVER_EXPECT(judged.cells.size() == lot.cells.size(), "the verdict is of this lot");
  base::Problems wrong = check(wishes);
  if (!wrong.empty()) return wrong;
  Match match;
  const Bench bench = sort_out(lot, judged, wishes, match);
  const std::size_t needed =
      static_cast<std::size_t>(wishes.series) * static_cast<std::size_t>(wishes.parallel);
  if (bench.names.size() < needed) {
    return problem_of(
        "a pack of " + std::to_string(wishes.series) + " groups of " +
            std::to_string(wishes.parallel) + " needs " + std::to_string(needed) + " cells; " +
            std::to_string(bench.names.size()) + " of " + std::to_string(lot.cells.size()) +
            " are fit",
        "test more cells, or build a smaller pack; rejected and unmeasured cells are not taken");
  }
  const numeric::GroupingProblem problem = problem_of(bench, wishes);
  const numeric::Grouping made = numeric::group_evenly(problem, progress);
  match.matched = dealing_of(lot, bench, made, wishes);
  match.in_order = dealing_of(lot, bench, numeric::in_order(problem), wishes);
  match.spares.reserve(made.spares.size());
  for (const std::size_t k : made.spares) match.spares.push_back(bench.names[k]);
  match.is_best = made.is_best;
  match.gap = Ratio::of_si(made.gap_share());
  match.keeps_bands = made.keeps_bands;
  match.bands_impossible = made.bands_impossible;
  match.was_stopped = made.was_stopped;
  match.caution = lot_caution(lot.kind.chemistry);
  match.sentences = match_sentences(match, wishes);
  return match;
}

}  // namespace tideover::cell
