#include "question/width_shares.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numeric>
#include <span>

#include "numeric/pick_freeze_points.hpp"
#include "numeric/pursuit.hpp"
#include "question/band_points.hpp"
#include "run/batch.hpp"

namespace tideover::question {

using numeric::PickFreeze;
using numeric::PickFreezePoints;
using quantity::Origin;
using Sort = BandKey::Sort;

namespace {

/// So many values are looked at one by one, if that much of what pilot draws follow is theirs.
constexpr std::size_t most_singles = 6;
constexpr double least_share = 0.01;
/// Less than this is not worth a measurement.
constexpr double worth_share = 0.1;
/// Points of each replicate.
constexpr std::uint64_t fewest_points = 4;
constexpr std::uint64_t most_points = 64;
/// Seeds of the replicates follow those of the band's own.
constexpr std::uint64_t own_seeds = 500;

std::optional<double> subject_of(const BandTally::Pilot& pilot, const BandKey& key) {
  const auto under = static_cast<std::size_t>(key.under);
  return key.sort == Sort::Carried ? pilot.carried_si[under] : pilot.recharge_si[under];
}

/// Every random number as a deviate of mean 0 and variance 1, shaped as the value that follows it.
class Deviates {
 public:
  explicit Deviates(const BandInputs& inputs) : shapes_(inputs.count()) {
    for (const DrawnValue& value : inputs.values) {
      if (shapes_[value.input].value == nullptr) shapes_[value.input] = shape_of(value);
    }
  }

  [[nodiscard]] std::vector<double> at(std::span<const double> u_share) const {
    std::vector<double> deviates(u_share.begin(), u_share.end());
    for (std::size_t k = 0; k < deviates.size(); ++k) {
      const Shape& shape = shapes_[k];
      deviates[k] = (shape.value->spread.at(u_share[k]) - shape.mean_si) / shape.deviation_si;
    }
    return deviates;
  }

 private:
  struct Shape {
    const DrawnValue* value = nullptr;
    double mean_si = 0.0;
    double deviation_si = 1.0;
  };

  static Shape shape_of(const DrawnValue& value) {
    constexpr int steps = 1000;
    const double nominal_si = value.amount.nominal_si;
    double sum_si = 0.0;
    double squares = 0.0;
    for (int k = 0; k < steps; ++k) {
      const double off_si = value.spread.at((k + 0.5) / steps) - nominal_si;
      sum_si += off_si / steps;
      squares += off_si * off_si / steps;
    }
    const double variance = squares - sum_si * sum_si;
    return {&value, nominal_si + sum_si, variance > 0.0 ? std::sqrt(variance) : 1.0};
  }

  std::vector<Shape> shapes_;
};

/// What each subject follows, by the pilot draws.
using Fits = std::array<numeric::Pursuit, std::tuple_size_v<MainTimes>>;

Fits fits_of(const BandTally& tally, const BandPoints& points, const Deviates& deviates,
             std::size_t inputs) {
  Fits fits;
  for (std::size_t s = 0; s < main_times().size(); ++s) {
    std::vector<std::vector<double>> draws;
    std::vector<double> results;
    for (const auto& [draw, pilot] : tally.pilots()) {
      const auto value_si = subject_of(pilot, main_times()[s]);
      if (!value_si) continue;
      draws.push_back(deviates.at(points.draw_share(draw)));
      results.push_back(*value_si);
    }
    fits[s] = numeric::pursue(draws, results);
    fits[s].coefficients.resize(inputs, 0.0);  // none where no pilot came to such a time
  }
  return fits;
}

/// Inputs that one of the subjects follows most, the foremost first.
std::vector<int> foremost(const Fits& fits, std::size_t inputs) {
  std::vector<double> most(inputs, 0.0);
  for (const numeric::Pursuit& fit : fits) {
    const std::vector<double>& c = fit.coefficients;
    const double whole = std::inner_product(c.begin(), c.end(), c.begin(), 0.0);
    for (std::size_t k = 0; whole > 0.0 && k < inputs; ++k) {
      most[k] = std::max(most[k], c[k] * c[k] / whole);
    }
  }
  std::vector<int> order(inputs);
  std::iota(order.begin(), order.end(), 0);
  const auto share = [&](int input) { return most[static_cast<std::size_t>(input)]; };
  std::ranges::stable_sort(order, std::ranges::greater{}, share);
  const auto last = std::ranges::find_if(order, [&](int k) { return share(k) < least_share; });
  order.erase(last, order.end());
  if (order.size() > most_singles) order.resize(most_singles);
  return order;
}

Origin origin_of(const BandInputs& inputs, int input) {
  const auto value =
      std::ranges::find(inputs.values, static_cast<std::size_t>(input), &DrawnValue::input);
  return value->amount.origin;
}

std::vector<WidthGroup> groups_of(const BandInputs& inputs, const std::vector<int>& singles) {
  using GroupSort = WidthGroup::Sort;
  const auto count = static_cast<int>(inputs.count());
  std::vector<WidthGroup> groups;
  groups.reserve(singles.size() + 1 + part::origin_words().size());
  WidthGroup others{"all others", {}, GroupSort::Others};
  for (const int k : singles) {
    groups.push_back({inputs.names[static_cast<std::size_t>(k)], {k}, GroupSort::Single});
  }
  for (int k = 0; k < count; ++k) {
    if (std::ranges::find(singles, k) == singles.end()) others.inputs.push_back(k);
  }
  if (!others.inputs.empty()) groups.push_back(others);
  for (std::size_t word = 0; word < part::origin_words().size(); ++word) {
    WidthGroup group{part::origin_words()[word], {}, GroupSort::Origin};
    for (int k = 0; k < count; ++k) {
      if (static_cast<std::size_t>(origin_of(inputs, k)) == word) group.inputs.push_back(k);
    }
    if (!group.inputs.empty()) groups.push_back(std::move(group));
  }
  return groups;
}

/// How the points of all replicates are numbered as works: replicate, point, then A, B and
/// mixtures.
class WidthDesign {
 public:
  WidthDesign(std::size_t inputs, const std::vector<WidthGroup>& groups,
              const WidthSettings& settings)
      : kinds_(groups.size() + 2) {
    std::vector<std::vector<int>> members;
    members.reserve(groups.size());
    for (const WidthGroup& group : groups) members.push_back(group.inputs);
    for (std::uint64_t r = 0; r < replicates; ++r) {
      sets_.emplace_back(static_cast<int>(inputs), members,
                         replicate_seed(settings.seed, own_seeds + r));
    }
    const std::uint64_t affordable = settings.draws / (replicates * kinds_);
    points_ = std::bit_floor(std::clamp(affordable, fewest_points, most_points));
  }

  [[nodiscard]] std::size_t count() const { return replicates * points_ * kinds_; }

  [[nodiscard]] std::vector<double> shares_of_work(std::size_t work) const {
    const PickFreezePoints& set = sets_[work / (points_ * kinds_)];
    const std::uint64_t point = work / kinds_ % points_;
    const std::size_t kind = work % kinds_;
    std::vector<double> u(static_cast<std::size_t>(set.inputs()));
    if (kind == 0) {
      set.at_a(point, u);
    } else if (kind == 1) {
      set.at_b(point, u);
    } else {
      set.at_mixed(static_cast<int>(kind) - 2, point, u);
    }
    return u;
  }

  /// Values in the order of the works.
  [[nodiscard]] std::vector<PickFreeze> sorted(const std::vector<double>& values) const {
    std::vector<PickFreeze> all(replicates);
    for (std::size_t work = 0; work < values.size(); ++work) {
      PickFreeze& into = all[work / (points_ * kinds_)];
      into.at_mixed.resize(kinds_ - 2);
      const std::size_t kind = work % kinds_;
      std::vector<double>& list = kind == 0   ? into.at_a
                                  : kind == 1 ? into.at_b
                                              : into.at_mixed[kind - 2];
      list.push_back(values[work]);
    }
    return all;
  }

 private:
  std::size_t kinds_;
  std::uint64_t points_ = 0;
  std::vector<PickFreezePoints> sets_;
};

/// What a subject follows, at the points of all works, with what each group makes of it.
numeric::Control control_of(const numeric::Pursuit& fit, const std::vector<WidthGroup>& groups,
                            const WidthDesign& design, const Deviates& deviates) {
  const std::vector<double>& c = fit.coefficients;
  std::vector<double> values;
  values.reserve(design.count());
  for (std::size_t work = 0; work < design.count(); ++work) {
    values.push_back(fit.at(deviates.at(design.shares_of_work(work))));
  }
  numeric::Control control{.replicates = design.sorted(values), .parts = {}, .variance = 0.0};
  control.variance = std::inner_product(c.begin(), c.end(), c.begin(), 0.0);
  for (const WidthGroup& group : groups) {
    double part = 0.0;
    for (const int input : group.inputs) {
      const double one = c[static_cast<std::size_t>(input)];
      part += one * one;
    }
    control.parts.push_back(part);
  }
  return control;
}

/// The subjects' values of every work; a subject that some work does not come to is left out.
using SubjectValues = std::array<std::vector<double>, std::tuple_size_v<MainTimes>>;

void note(const DrawOutcome& outcome, SubjectValues& values) {
  for (std::size_t s = 0; s < main_times().size(); ++s) {
    for (const auto& [key, value_si] : outcome.numbers_si) {
      if (key == main_times()[s] && std::isfinite(value_si)) values[s].push_back(value_si);
    }
  }
}

WidthAdvice advice_for(const BandKey& key, const Band& band, std::size_t group, double share,
                       bool is_measured) {
  const double left = std::sqrt(1.0 - std::clamp(share, 0.0, 1.0));
  const double middle_si = band.p50.value_si;
  return {.band = key,
          .group = group,
          .is_measured = is_measured,
          .from_p5_si = band.p5.value_si,
          .from_p95_si = band.p95.value_si,
          .to_p5_si = middle_si + left * (band.p5.value_si - middle_si),
          .to_p95_si = middle_si + left * (band.p95.value_si - middle_si)};
}

/// Of the first band that has shares: the value that was not measured and makes most of the width;
/// where there is none worth it, the same of those measured.
std::optional<WidthAdvice> advice_of(const WidthShares& found, const BandInputs& inputs,
                                     const BandTally& tally) {
  if (found.bands.empty()) return std::nullopt;
  const WidthOfBand& width = found.bands.front();
  for (const bool is_measured : {false, true}) {
    std::optional<std::size_t> best;
    for (std::size_t k = 0; k < found.groups.size(); ++k) {
      const WidthGroup& group = found.groups[k];
      if (group.sort != WidthGroup::Sort::Single) continue;
      if ((origin_of(inputs, group.inputs.front()) == Origin::Measured) != is_measured) continue;
      const double share = width.shares[k].total;
      if (share < worth_share || share < 2.0 * width.shares[k].total_error) continue;
      if (!best || share > width.shares[*best].total) best = k;
    }
    const auto band = tally.band(width.band);
    if (!best || !band) continue;
    return advice_for(width.band, *band, *best, width.shares[*best].first, is_measured);
  }
  return std::nullopt;
}

}  // namespace

WidthShares width_shares(const build::Build& build, const BandInputs& inputs,
                         const BandTrial& trial, const BandTally& tally,
                         const WidthSettings& settings, base::Progress& progress) {
  if (settings.draws == 0 || inputs.count() == 0) return {};
  const BandPoints points(inputs.count(), settings.seed);
  const Deviates deviates(inputs);
  const Fits fits = fits_of(tally, points, deviates, inputs.count());
  const std::vector<int> singles = foremost(fits, inputs.count());
  if (singles.empty()) return {};
  WidthShares found{.groups = groups_of(inputs, singles)};
  const WidthDesign design(inputs.count(), found.groups, settings);
  const auto work = [&](build::Workpiece& piece, std::size_t number, base::Progress& stop) {
    piece.take_back();
    set_values(inputs, design.shares_of_work(number), piece);
    return trial.carry_out(piece, stop);
  };
  run::Batch<DrawOutcome> batch(
      build, design.count(), work,
      {.threads = settings.threads, .doing = "where the width comes from"});
  SubjectValues values;
  const auto take = [&](std::size_t, DrawOutcome&& outcome) {
    note(outcome, values);
    return true;
  };
  found.draws = batch.run(take, progress);
  if (found.draws < design.count()) return {};
  for (std::size_t s = 0; s < main_times().size(); ++s) {
    if (values[s].size() < design.count()) continue;
    const auto shares = numeric::variance_shares(
        design.sorted(values[s]), control_of(fits[s], found.groups, design, deviates));
    if (shares.variance > 0.0) found.bands.push_back({main_times()[s], shares.groups});
  }
  found.advice = advice_of(found, inputs, tally);
  return found;
}

}  // namespace tideover::question
