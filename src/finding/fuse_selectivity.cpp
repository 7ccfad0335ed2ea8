#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/fuse_pair.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Second;

namespace {

/// Two to one in rated current is the usual hand rule, from memory.
constexpr double hand_ratio = 2.0;
/// Enough to find the worst current between the lowest and the highest short circuit.
constexpr int steps = 24;

/// At the current at which the fuse before is nearest to opening first.
struct Race {
  Ampere current;
  Second behind_opens;  ///< at its latest
  Second before_opens;  ///< at its earliest
};

Race worst_race(const Feeding& feeding, const FusePair& pair) {
  const Path far = path_through(feeding, *pair.source, *pair.behind);
  const double most_a = highest_prospective(*pair.source, far).si();
  const double least_a = std::min(most_a, lowest_prospective(*pair.source, far).si());
  Race worst;
  for (int k = 0; k <= steps; ++k) {
    const Ampere current = Ampere::of_si(least_a * std::pow(most_a / least_a, k / double{steps}));
    const auto before = pair.before->opening_time(current, part::FuseLaw::Earliest);
    const auto behind = pair.behind->opening_time(current, part::FuseLaw::Latest);
    if (!before) continue;  // it carries that for good
    const Race race{current, behind.value_or(Second::of_si(part::for_good_s)), *before};
    if (worst.before_opens.si() <= 0.0 ||
        race.before_opens / race.behind_opens < worst.before_opens / worst.behind_opens) {
      worst = race;
    }
  }
  return worst;
}

Finding judged(const Feeding& feeding, const FusePair& pair) {
  const Race race = worst_race(feeding, pair);
  const part::Fuse& before = *pair.before;
  const part::Fuse& behind = *pair.behind;
  Finding finding{.part = behind.name, .answer = Answer::Holds};
  if (race.before_opens.si() <= 0.0) {
    finding.measured =
        Figure{highest_prospective(*pair.source, {}).si(), quantity::measure_of<Ampere>()};
    finding.sentence = fmt::format("No short circuit behind {} opens {} of {}.", behind.name,
                                   before.name, quantity::show(before.rated.nominal()));
    return finding;
  }
  const bool is_sure = race.behind_opens < race.before_opens;
  const bool is_by_hand_rule = before.rated.si() >= hand_ratio * behind.rated.si();
  if (is_sure) {
    finding = measured_against<Second>(behind.name, race.behind_opens.si(), race.before_opens.si(),
                                       Limits::Above);
  } else {
    finding = measured_against<Ampere>(behind.name, behind.rated.si(),
                                       before.rated.si() / hand_ratio, Limits::Above);
    finding.answer = is_by_hand_rule ? Answer::Tight : Answer::Fails;
    // The answer comes from the times, so that a share of the ratings would mislead.
    if (is_by_hand_rule) finding.margin.reset();
  }
  finding.sentence = fmt::format(
      "At {} behind {} of {} it {}, {} of {} before it after {} or more; {}.",
      shown<Ampere>(race.current.si(), 3), behind.name, quantity::show(behind.rated.nominal()),
      std::isfinite(race.behind_opens.si()) ? "opens within " + quantity::show(race.behind_opens)
                                            : "need not open",
      before.name, quantity::show(before.rated.nominal()), quantity::show(race.before_opens),
      is_sure           ? "it goes first"
      : is_by_hand_rule ? "at the edges of their bands either may go first, though their ratings "
                          "are two to one"
                        : "either may go first");
  if (finding.answer != Answer::Holds) {
    const auto rating = fuse_up_to(behind.style, before.rated.nominal() / hand_ratio);
    finding.advice =
        rating && !is_by_hand_rule
            ? fmt::format("{}: rated = {} or less.", behind.name, quantity::show(*rating))
            : fmt::format("{}: style = \"quick\", or a slower one for {}.", behind.name,
                          before.name);
  }
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding feeding(evidence.build);
  std::vector<Finding> found;
  for (const FusePair& pair : fuse_pairs(evidence.build, feeding)) {
    // What limits itself opens none of two fuses for sure: packs only.
    if (pair.source->limit || pair.source->plus.terminal != "plus") continue;
    found.push_back(judged(feeding, pair));
  }
  return found;
}

}  // namespace

const Rule& fuse_selectivity() {
  static const Rule rule{
      .key = "fuse_selectivity",
      .title = "Which fuse goes first",
      .words =
          "Of two fuses in a row the one nearer to the fault should go alone, so that one shorted "
          "device does not take the whole supply down. Sure is only what holds at the edges of "
          "both bands: the one behind at its latest, the one before at its earliest.",
      .formula = "t_latest(behind) < t_earliest(before) at every short-circuit current",
      .source =
          "let-through against melting I2t: IEC 60269-1 practice, from memory; two to one in rated "
          "current: common practice, no source",
      .caution = "",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
