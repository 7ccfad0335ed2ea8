#include "numeric/variance_shares.hpp"

#include <cmath>
#include <numeric>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

struct Moments {
  double mean;
  double variance;
};

/// Of A and B together: each of their points is a draw of its own. Divided by their number and not
/// by one less: the mean of evenly spread points is all but the true one.
Moments moments_of(const PickFreeze& values) {
  const double n = static_cast<double>(values.at_a.size() + values.at_b.size());
  const double sum = std::accumulate(values.at_a.begin(), values.at_a.end(), 0.0) +
                     std::accumulate(values.at_b.begin(), values.at_b.end(), 0.0);
  const double mean = sum / n;
  const auto add_square = [mean](double square, double value) {
    return square + (value - mean) * (value - mean);
  };
  const double squares = std::accumulate(values.at_a.begin(), values.at_a.end(), 0.0, add_square) +
                         std::accumulate(values.at_b.begin(), values.at_b.end(), 0.0, add_square);
  return {.mean = mean, .variance = squares / n};
}

/// The variance that a group makes by itself; a mean taken off beforehand quiets the estimate.
double first_part(const PickFreeze& values, const std::vector<double>& mixed, double mean) {
  double sum = 0.0;
  for (std::size_t k = 0; k < mixed.size(); ++k) {
    sum += (values.at_b[k] - mean) * (mixed[k] - values.at_a[k]);
  }
  return sum / static_cast<double>(mixed.size());
}

double total_part(const PickFreeze& values, const std::vector<double>& mixed) {
  double sum = 0.0;
  for (std::size_t k = 0; k < mixed.size(); ++k) {
    sum += (values.at_a[k] - mixed[k]) * (values.at_a[k] - mixed[k]);
  }
  return 0.5 * sum / static_cast<double>(mixed.size());
}

struct Ratio {
  double value;
  double error;
};

/// Of the means of parts and wholes, with the standard error that the replicates' scatter shows.
Ratio ratio_of(std::span<const double> parts, std::span<const double> wholes) {
  const double part = std::accumulate(parts.begin(), parts.end(), 0.0);
  const double whole = std::accumulate(wholes.begin(), wholes.end(), 0.0);
  if (!(whole > 0.0)) return {0.0, 0.0};
  const double ratio = part / whole;
  double squares = 0.0;
  for (std::size_t r = 0; r < parts.size(); ++r) {
    const double rest = parts[r] - ratio * wholes[r];
    squares += rest * rest;
  }
  const auto n = static_cast<double>(parts.size());
  return {ratio, std::sqrt(squares / (n * (n - 1.0))) / (whole / n)};
}

void expect_alike(std::span<const PickFreeze> replicates) {
  TIDEOVER_EXPECT(replicates.size() >= 2, "an error needs two replicates");
  const std::size_t groups = replicates.front().at_mixed.size();
  for (const PickFreeze& values : replicates) {
    const std::size_t n = values.at_a.size();
    TIDEOVER_EXPECT(n >= 2 && values.at_b.size() == n && values.at_mixed.size() == groups,
                    "replicates that are alike");
    for (const auto& mixed : values.at_mixed) {
      TIDEOVER_EXPECT(mixed.size() == n, "as many mixtures as points");
    }
  }
}

/// What one replicate says of the whole variance and of every group's part in it.
struct Parts {
  double mean = 0.0;
  double variance = 0.0;
  std::vector<double> firsts;
  std::vector<double> totals;
};

Parts parts_of(const PickFreeze& values) {
  const Moments moments = moments_of(values);
  Parts parts{.mean = moments.mean, .variance = moments.variance, .firsts = {}, .totals = {}};
  for (const std::vector<double>& mixed : values.at_mixed) {
    parts.firsts.push_back(first_part(values, mixed, moments.mean));
    parts.totals.push_back(total_part(values, mixed));
  }
  return parts;
}

/// In place of what the points make of the control, what is known of it.
void correct(Parts& parts, const Parts& drawn, const Control& control) {
  parts.variance += control.variance - drawn.variance;
  for (std::size_t group = 0; group < parts.firsts.size(); ++group) {
    parts.firsts[group] += control.parts[group] - drawn.firsts[group];
    parts.totals[group] += control.parts[group] - drawn.totals[group];
  }
}

VarianceShares shares_of(const std::vector<Parts>& replicates) {
  std::vector<double> variances;
  VarianceShares shares{.mean = 0.0, .variance = 0.0, .groups = {}};
  const auto count = static_cast<double>(replicates.size());
  for (const Parts& parts : replicates) {
    variances.push_back(parts.variance);
    shares.mean += parts.mean / count;
    shares.variance += parts.variance / count;
  }
  for (std::size_t group = 0; group < replicates.front().firsts.size(); ++group) {
    std::vector<double> firsts;
    std::vector<double> totals;
    for (const Parts& parts : replicates) {
      firsts.push_back(parts.firsts[group]);
      totals.push_back(parts.totals[group]);
    }
    const Ratio first = ratio_of(firsts, variances);
    const Ratio total = ratio_of(totals, variances);
    shares.groups.push_back({first.value, first.error, total.value, total.error});
  }
  return shares;
}

}  // namespace

VarianceShares variance_shares(std::span<const PickFreeze> replicates) {
  expect_alike(replicates);
  std::vector<Parts> all;
  for (const PickFreeze& values : replicates) all.push_back(parts_of(values));
  return shares_of(all);
}

VarianceShares variance_shares(std::span<const PickFreeze> replicates, const Control& control) {
  expect_alike(replicates);
  expect_alike(control.replicates);
  TIDEOVER_EXPECT(control.replicates.size() == replicates.size() &&
                      control.parts.size() == replicates.front().at_mixed.size(),
                  "a control at the same points");
  std::vector<Parts> all;
  for (std::size_t r = 0; r < replicates.size(); ++r) {
    all.push_back(parts_of(replicates[r]));
    correct(all.back(), parts_of(control.replicates[r]), control);
  }
  return shares_of(all);
}

}  // namespace tideover::numeric
