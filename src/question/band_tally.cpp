#include "question/band_tally.hpp"

#include <algorithm>
#include <cmath>

namespace tideover::question {

namespace {

/// Student's t for 95 % with 7 degrees of freedom: statistical tables.
constexpr double t_of_eight = 2.3646;
/// With fewer draws in a replicate their scatter says little.
constexpr std::uint64_t least_each = 16;

Band::Quantile quantile_of(const numeric::Buckets& numbers, double p) {
  const numeric::Ranks ranks = numeric::quantile_ranks(numbers.count(), p);
  return {.value_si = numbers.quantile(p),
          .low_si = numbers.at_rank(ranks.low),
          .high_si = numbers.at_rank(ranks.high)};
}

}  // namespace

void BandTally::add(std::uint64_t draw, const DrawOutcome& outcome) {
  ++counts_.draws;
  if (outcome.came == DrawOutcome::Came::Contradicting) ++counts_.contradicting;
  if (outcome.came == DrawOutcome::Came::Stuck) ++counts_.stuck;
  Pilot pilot;
  for (const auto& [key, value_si] : outcome.numbers_si) {
    numbers_[key].add(value_si);
    if (!std::isfinite(value_si)) continue;
    const auto under = static_cast<std::size_t>(key.under);
    if (key.sort == BandKey::Sort::Carried) pilot.carried_si[under] = value_si;
    if (key.sort == BandKey::Sort::Recharge) pilot.recharge_si[under] = value_si;
  }
  for (const auto& [key, is_met] : outcome.needs) {
    Met& met = needs_[key][draw % replicates];
    met.met += is_met ? 1U : 0U;
    ++met.of;
  }
  for (const BrokenRule& broken : outcome.broken) ++broken_[broken];
  if (draw < pilot_draws) pilots_[draw] = pilot;
}

void BandTally::add(const BandTally& others) {
  counts_.draws += others.counts_.draws;
  counts_.contradicting += others.counts_.contradicting;
  counts_.stuck += others.counts_.stuck;
  for (const auto& [key, numbers] : others.numbers_) numbers_[key].add(numbers);
  for (const auto& [key, met] : others.needs_) {
    auto& sum = needs_[key];
    for (std::size_t r = 0; r < replicates; ++r) {
      sum[r].met += met[r].met;
      sum[r].of += met[r].of;
    }
  }
  for (const auto& [rule, count] : others.broken_) broken_[rule] += count;
  pilots_.insert(others.pilots_.begin(), others.pilots_.end());
}

std::optional<Band> BandTally::band(const BandKey& key) const {
  const auto found = numbers_.find(key);
  if (found == numbers_.end()) return std::nullopt;
  const numeric::Buckets& numbers = found->second;
  return Band{.draws = numbers.count(),
              .p5 = quantile_of(numbers, 0.05),
              .p50 = quantile_of(numbers, 0.50),
              .p95 = quantile_of(numbers, 0.95),
              .lowest_si = numbers.lowest(),
              .highest_si = numbers.highest()};
}

std::optional<Chance> BandTally::chance(const NeedKey& key) const {
  const auto found = needs_.find(key);
  if (found == needs_.end()) return std::nullopt;
  return chance_of(found->second);
}

const MainTimes& main_times() {
  using Sort = BandKey::Sort;
  static const MainTimes keys{BandKey{Sort::Carried, 1}, BandKey{Sort::Carried, 0},
                              BandKey{Sort::Recharge, 1}, BandKey{Sort::Recharge, 0}};
  return keys;
}

Chance chance_of(const std::array<BandTally::Met, replicates>& met) {
  BandTally::Met all;
  std::uint64_t fewest = met[0].of;
  for (const BandTally::Met& one : met) {
    all.met += one.met;
    all.of += one.of;
    fewest = std::min(fewest, one.of);
  }
  const Chance exact = numeric::proportion_of(all.met, all.of);
  if (all.met == 0 || all.met == all.of || fewest < least_each) return exact;
  double squares = 0.0;
  for (const BandTally::Met& one : met) {
    const double share = static_cast<double>(one.met) / static_cast<double>(one.of);
    squares += (share - exact.estimate) * (share - exact.estimate);
  }
  constexpr auto n = static_cast<double>(replicates);
  // Replicates that happen to agree do not make the chance surer than one draw more or less.
  const double half = std::max(t_of_eight * std::sqrt(squares / (n * (n - 1.0))),
                               1.0 / static_cast<double>(all.of));
  return {.low = std::max(0.0, exact.estimate - half),
          .estimate = exact.estimate,
          .high = std::min(1.0, exact.estimate + half)};
}

}  // namespace tideover::question
