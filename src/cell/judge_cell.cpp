#include "cell/judge_cell.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "numeric/outlier.hpp"
#include "part/pack/cell_curves.hpp"
#include "quantity/show.hpp"

namespace tideover::cell {

using namespace quantity;

namespace {

/// What the rules judge by, in the lot's own numbers.
struct Bench {
  const Lot& lot;
  const Thresholds& thresholds;
  std::optional<numeric::Family> capacity;  ///< empty where too few were measured
  std::optional<numeric::Family> resistance;
  std::optional<numeric::Family> leak;
};

std::string percent(double share, int digits = 2) {
  return base::number_text(100.0 * share, digits) + " %";
}

Judgement not_asked(std::string_view rule, std::string_view title, std::string sentence,
                    std::string advice) {
  Judgement judgement{rule, title};
  judgement.sentence = std::move(sentence);
  judgement.advice = std::move(advice);
  return judgement;
}

Fitness when_below(double value, double reject, double doubt) {
  if (value < reject) return Fitness::Reject;
  return value < doubt ? Fitness::Doubt : Fitness::Accept;
}

Judgement low_capacity(const Bench& bench, const TestedCell& cell) {
  constexpr std::string_view rule = "low_capacity";
  constexpr std::string_view title = "Low capacity";
  if (!cell.capacity) {
    return not_asked(rule, title, "The capacity of " + cell.name + " was not measured.",
                     "Charge it full, discharge it at a fifth of its capacity an hour, and write "
                     "down what came out.");
  }
  const part::Cell& kind = bench.lot.kind;
  const double rated_c = kind.capacity.si();
  const double share = cell.capacity->si() / rated_c;
  const double worn_share = kind.end_of_life_capacity.si();
  const double doubt_share = worn_share + bench.thresholds.capacity_doubt_above_limit.si();
  Judgement judgement{rule, title, when_below(share, worn_share, doubt_share)};
  judgement.figure = show(cell.capacity->nominal());
  judgement.limit = "at least " + show(Coulomb::of_si(worn_share * rated_c)) + ", doubt below " +
                    show(Coulomb::of_si(doubt_share * rated_c));
  judgement.sentence = cell.name + " holds " + judgement.figure + ", " + percent(share, 3) +
                       " of a new " + bench.lot.kind_name + ". A cell counts as worn out below " +
                       percent(worn_share) + ".";
  if (judgement.fitness == Fitness::Doubt) {
    judgement.advice = "It has little life left; keep it as a spare.";
  }
  if (judgement.fitness == Fitness::Reject) judgement.advice = "Do not build it in.";
  judgement.source =
      "end_of_life_capacity of the class; IEEE 485 and 1115 replace at 80 %, from "
      "memory; the margin above is common practice, no source";
  return judgement;
}

Judgement high_resistance(const Bench& bench, const TestedCell& cell) {
  constexpr std::string_view rule = "high_resistance";
  constexpr std::string_view title = "High resistance";
  if (!cell.resistance) {
    return not_asked(rule, title, "The resistance of " + cell.name + " was not measured.",
                     "Measure it with four wires, at about half charge and room temperature.");
  }
  const part::Cell& kind = bench.lot.kind;
  const double new_ohm = part::curves_of(kind).half_charge_ohm;
  const double times = cell.resistance->si() / new_ohm;
  const double doubt = kind.end_of_life_resistance.si();
  const double reject = doubt * bench.thresholds.resistance_reject_over_doubt.si();
  Judgement judgement{rule, title, when_below(-times, -reject, -doubt)};
  judgement.figure = show(cell.resistance->nominal());
  judgement.limit = "at most " + show(Ohm::of_si(reject * new_ohm)) + ", doubt above " +
                    show(Ohm::of_si(doubt * new_ohm));
  judgement.sentence = cell.name + " has " + judgement.figure + ", " + base::number_text(times, 2) +
                       " times a new " + bench.lot.kind_name +
                       " at half charge; a worn-out one has " + base::number_text(doubt, 2) +
                       " times that.";
  if (judgement.fitness == Fitness::Doubt) {
    judgement.advice = "Measure again with four wires and clean caps before you believe it.";
  }
  if (judgement.fitness == Fitness::Reject) {
    judgement.advice = "Do not build it in: it gets warmer than its neighbours and sags first.";
  }
  judgement.source = "end_of_life_resistance of the class; common practice, no source";
  return judgement;
}

Judgement low_rest_voltage(const Bench& bench, const TestedCell& cell) {
  constexpr std::string_view rule = "low_rest_voltage";
  constexpr std::string_view title = "Low resting voltage";
  if (cell.rest_voltages.empty()) {
    return not_asked(rule, title, "The resting voltage of " + cell.name + " was not measured.",
                     "Read it as found, before anything is charged.");
  }
  const auto lowest = std::ranges::min_element(
      cell.rest_voltages, {}, [](const RestVoltage& reading) { return reading.voltage.si(); });
  const double safe_v = bench.lot.kind.discharge_to.si();
  const double far_v = safe_v * bench.thresholds.rest_reject_share.si();
  Judgement judgement{rule, title, when_below(lowest->voltage.si(), far_v, safe_v)};
  judgement.figure = show(lowest->voltage.nominal(), 4);
  judgement.limit =
      "at least " + show(Volt::of_si(far_v)) + ", doubt below " + show(Volt::of_si(safe_v));
  judgement.sentence = cell.name + " was at rest at " + judgement.figure +
                       "; its class is empty at " + show(Volt::of_si(safe_v)) + ".";
  if (judgement.fitness == Fitness::Doubt) {
    judgement.advice =
        "It was drained below empty. Watch its self-discharge for a month before you trust it.";
  }
  if (judgement.fitness == Fitness::Reject) {
    judgement.advice = "Do not charge it, not even as a trial.";
    if (bench.lot.kind.chemistry != part::Chemistry::LeadAcid) {
      judgement.caution =
          "A lithium cell that lay far below its safe voltage may have metal grown inside, and may "
          "short and burn when it is charged, at once or weeks later. Tape its ends, keep it apart "
          "from what burns, and take it to a place that accepts damaged batteries, as local rules "
          "say.";
    }
  }
  judgement.source = "discharge_to of the class; the share of it is common practice, no source";
  return judgement;
}

struct LeakLimits {
  double doubt_share = 0.0;
  double reject_share = 0.0;
};

LeakLimits leak_limits(const Bench& bench) {
  const Thresholds& t = bench.thresholds;
  const double doubt = std::max(t.leak_doubt_least.si(),
                                t.leak_doubt_over_row.si() * bench.lot.kind.self_discharge.si());
  return {doubt, doubt * t.leak_reject_over_doubt.si()};
}

/// A figure counts as beyond a limit when two standard errors do not explain it.
Fitness fitness_of_leak(const SelfDischarge& leak, const LeakLimits& limits) {
  const double surely = leak.per_month.si() - 2.0 * leak.error.si();
  if (surely > limits.reject_share) return Fitness::Reject;
  const bool is_doubtful = surely > limits.doubt_share || leak.per_month.si() > limits.reject_share;
  return is_doubtful ? Fitness::Doubt : Fitness::Accept;
}

Judgement fast_self_discharge(const Bench& bench, const TestedCell& cell,
                              const std::optional<SelfDischarge>& leak) {
  constexpr std::string_view rule = "fast_self_discharge";
  constexpr std::string_view title = "Fast self-discharge";
  const std::string again = "Read the resting voltage, with the date, again in a month.";
  if (!leak) {
    return not_asked(rule, title,
                     "How fast " + cell.name +
                         " loses charge cannot be told: that takes resting voltages a week apart "
                         "or more, with some charge left.",
                     again);
  }
  const LeakLimits limits = leak_limits(bench);
  const std::string figure =
      percent(leak->per_month.si()) + " a month +/- " + percent(2.0 * leak->error.si(), 1);
  const std::string story = cell.name + " went from " + show(leak->from, 4) + " to " +
                            show(leak->to, 4) + " in " + show(leak->over) + ": ";
  if (2.0 * leak->error.si() > limits.reject_share) {
    Judgement judgement = not_asked(rule, title,
                                    story + figure +
                                        " of its charge, which says nothing: the rest "
                                        "curve is flat there or the time was short.",
                                    again);
    judgement.figure = figure;
    return judgement;
  }
  Judgement judgement{rule, title, fitness_of_leak(*leak, limits)};
  judgement.figure = figure;
  judgement.limit = "at most " + percent(limits.reject_share) + " a month, doubt above " +
                    percent(limits.doubt_share);
  judgement.sentence = story + figure + " of its charge. Its class loses " +
                       percent(bench.lot.kind.self_discharge.si()) + " a month.";
  if (judgement.fitness == Fitness::Doubt) judgement.advice = again;
  if (judgement.fitness == Fitness::Reject) {
    judgement.advice = "Do not build it in: it drains its group and keeps the balancing busy.";
    if (bench.lot.kind.chemistry != part::Chemistry::LeadAcid) {
      judgement.caution =
          "Fast self-discharge can be a short that grows inside the cell. Keep it apart from what "
          "burns and do not charge it unattended.";
    }
  }
  judgement.source =
      "2 to 3 % a month for sound lithium cells, daviddarling.info; the limits are "
      "common practice, no source";
  return judgement;
}

/// One of a cell's figures among those of the others.
struct Kinship {
  std::string what;  ///< "capacity"
  double value_si = 0.0;
  double repeats_within_si = 0.0;
  const std::optional<numeric::Family>& family;
  std::string shown;
  std::string usual;
};

std::vector<Kinship> kinships(const Bench& bench, const TestedCell& cell,
                              const std::optional<SelfDischarge>& leak) {
  const Thresholds& t = bench.thresholds;
  std::vector<Kinship> all;
  if (cell.capacity && bench.capacity) {
    const double median = bench.capacity->median;
    all.push_back({"capacity", cell.capacity->si(), t.capacity_repeats_within.si() * median,
                   bench.capacity, show(cell.capacity->nominal()), show(Coulomb::of_si(median))});
  }
  if (cell.resistance && bench.resistance) {
    const double median = bench.resistance->median;
    all.push_back({"resistance", cell.resistance->si(), t.resistance_repeats_within.si() * median,
                   bench.resistance, show(cell.resistance->nominal()), show(Ohm::of_si(median))});
  }
  if (leak && bench.leak) {
    const double within = std::max(0.5 * leak_limits(bench).doubt_share, 2.0 * leak->error.si());
    all.push_back({"self-discharge", leak->per_month.si(), within, bench.leak,
                   percent(leak->per_month.si()), percent(bench.leak->median)});
  }
  return all;
}

Judgement out_of_family(const Bench& bench, const TestedCell& cell,
                        const std::optional<SelfDischarge>& leak) {
  constexpr std::string_view rule = "out_of_family";
  constexpr std::string_view title = "Out of family";
  const auto all = kinships(bench, cell, leak);
  if (all.empty()) {
    return not_asked(rule, title, cell.name + " has no family to be held against.",
                     "At least " + std::to_string(bench.thresholds.least_family) +
                         " cells of the lot must have been measured alike.");
  }
  const auto score_of = [](const Kinship& kin) {
    const bool is_near = std::abs(kin.value_si - kin.family->median) <= kin.repeats_within_si;
    return is_near ? 0.0 : std::abs(kin.family->score(kin.value_si));
  };
  const auto worst = std::ranges::max_element(all, {}, score_of);
  const double score = score_of(*worst);
  Judgement judgement{rule, title,
                      score > numeric::outlier_score ? Fitness::Doubt : Fitness::Accept};
  judgement.figure = "score " +
                     base::number_text(std::abs(worst->family->score(worst->value_si)), 2) +
                     " in " + worst->what;
  judgement.limit = "score " + base::number_text(numeric::outlier_score, 2) +
                    ", and more than a repeated test differs";
  if (judgement.fitness == Fitness::Doubt) {
    judgement.sentence = cell.name + " has a " + worst->what + " of " + worst->shown +
                         " where the lot's middle is " + worst->usual +
                         ": it is of another age, make or history, or was misread.";
    judgement.advice = "Test it again; if it stays so, leave it out.";
  } else {
    judgement.sentence = cell.name + " is like the others of the lot.";
  }
  judgement.source =
      "modified z-score, Iglewicz and Hoaglin 1993, from memory; a repeated test on "
      "one 2.9 Ah cell differed by 1.7 %, Kollmeyer 2018";
  return judgement;
}

void find_families(Bench& bench, const std::vector<JudgedCell>& judged) {
  std::vector<double> capacity;
  std::vector<double> resistance;
  std::vector<double> leak;
  capacity.reserve(judged.size());
  resistance.reserve(judged.size());
  leak.reserve(judged.size());
  for (std::size_t k = 0; k < judged.size(); ++k) {
    const TestedCell& cell = bench.lot.cells[k];
    if (cell.capacity) capacity.push_back(cell.capacity->si());
    if (cell.resistance) resistance.push_back(cell.resistance->si());
    if (judged[k].self_discharge) leak.push_back(judged[k].self_discharge->per_month.si());
  }
  const auto family = [&](std::vector<double>& of) -> std::optional<numeric::Family> {
    if (of.size() < std::max<std::size_t>(1, bench.thresholds.least_family)) return std::nullopt;
    return numeric::family_of(std::move(of));
  };
  bench.capacity = family(capacity);
  bench.resistance = family(resistance);
  bench.leak = family(leak);
}

}  // namespace

std::string_view word_of(Fitness fitness) {
  switch (fitness) {
    case Fitness::NotAsked: return "not asked";
    case Fitness::Accept: return "accept";
    case Fitness::Doubt: return "doubt";
    case Fitness::Reject: return "reject";
  }
  return "";
}

std::size_t JudgedLot::count(Fitness fitness) const {
  return static_cast<std::size_t>(std::ranges::count(cells, fitness, &JudgedCell::fitness));
}

JudgedLot judge_lot(const Lot& lot, const Thresholds& thresholds) {
  JudgedLot judged;
  judged.caution = lot_caution(lot.kind.chemistry);
  judged.cells.reserve(lot.cells.size());
  for (const TestedCell& cell : lot.cells) {
    judged.cells.push_back({cell.name, Fitness::NotAsked, {}, self_discharge_of(cell, lot.kind)});
  }
  Bench bench{lot, thresholds, {}, {}, {}};
  find_families(bench, judged.cells);
  for (std::size_t k = 0; k < lot.cells.size(); ++k) {
    const TestedCell& cell = lot.cells[k];
    JudgedCell& mine = judged.cells[k];
    mine.judgements = {low_capacity(bench, cell), high_resistance(bench, cell),
                       low_rest_voltage(bench, cell),
                       fast_self_discharge(bench, cell, mine.self_discharge),
                       out_of_family(bench, cell, mine.self_discharge)};
    for (const Judgement& judgement : mine.judgements) {
      mine.fitness = std::max(mine.fitness, judgement.fitness);
    }
  }
  return judged;
}

}  // namespace tideover::cell
