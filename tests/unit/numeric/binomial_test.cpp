#include "numeric/binomial.hpp"

#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"

namespace {

using tideover::numeric::proportion_of;
using tideover::numeric::quantile_ranks;
using tideover::numeric::Ranks;

/// Chance of at most k hits in n draws, added up term by term.
double at_most(std::uint64_t k, std::uint64_t n, double p) {
  const auto trials = static_cast<double>(n);
  double sum = 0.0;
  for (std::uint64_t i = 0; i <= k; ++i) {
    const auto hits = static_cast<double>(i);
    sum +=
        std::exp(std::lgamma(trials + 1) - std::lgamma(hits + 1) - std::lgamma(trials - hits + 1) +
                 hits * std::log(p) + (trials - hits) * std::log1p(-p));
  }
  return sum;
}

}  // namespace

TEST_CASE("binomial: the interval of a proportion is the published one") {
  // The example of R's binom.test, Conover's peas: 682 of 925 at 95 % (from memory).
  const auto peas = proportion_of(682, 925);
  CHECK(peas.low == doctest::Approx(0.7076683).epsilon(1e-7));
  CHECK(peas.high == doctest::Approx(0.7654066).epsilon(1e-7));
  CHECK(peas.estimate == doctest::Approx(0.7372973).epsilon(1e-7));
  // NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.1: 4 of 20 at 90 % (from memory).
  const auto defectives = proportion_of(4, 20, 0.90);
  CHECK(defectives.low == doctest::Approx(0.071354).epsilon(1e-5));
  CHECK(defectives.high == doctest::Approx(0.401029).epsilon(1e-5));
  // Tables of exact limits, none and one of 10 at 95 % (from memory).
  CHECK(proportion_of(0, 10).high == doctest::Approx(0.3085).epsilon(2e-4));
  CHECK(proportion_of(1, 10).low == doctest::Approx(0.0025).epsilon(0.02));
  CHECK(proportion_of(1, 10).high == doctest::Approx(0.4450).epsilon(2e-4));
}

TEST_CASE("binomial: ten thousand draws that all hold promise at least 0.99963") {
  const auto all = proportion_of(10'000, 10'000);
  CHECK(all.high == 1.0);
  CHECK(all.low == doctest::Approx(std::pow(0.025, 1e-4)).epsilon(1e-12));
  const auto none = proportion_of(0, 10'000);
  CHECK(none.low == 0.0);
  CHECK(none.high == doctest::Approx(1.0 - all.low).epsilon(1e-9));
}

TEST_CASE("binomial: at the interval's ends what was seen is just as unlikely as was allowed") {
  CHECK(rc::check([] {
    const auto trials = *rc::gen::inRange<std::uint64_t>(1, 400);
    const auto hits = *rc::gen::inRange<std::uint64_t>(0, trials + 1);
    const auto interval = proportion_of(hits, trials, 0.9);
    RC_ASSERT((interval.low <= interval.estimate && interval.estimate <= interval.high));
    if (hits > 0) {
      RC_ASSERT(std::abs(1.0 - at_most(hits - 1, trials, interval.low) - 0.05) < 1e-9);
    }
    if (hits < trials) RC_ASSERT(std::abs(at_most(hits, trials, interval.high) - 0.05) < 1e-9);
  }));
}

TEST_CASE("binomial: ranks around the median are those of the sign test's tables") {
  // 95 % limits of a median, 10, 20 and 50 numbers: handbooks of statistics (from memory).
  CHECK(quantile_ranks(10, 0.5) == Ranks{2, 9});
  CHECK(quantile_ranks(20, 0.5) == Ranks{6, 15});
  CHECK(quantile_ranks(50, 0.5) == Ranks{18, 33});
}

TEST_CASE("binomial: a quantile lies between its ranks as often as promised, no rank is spare") {
  CHECK(rc::check([] {
    const auto count = *rc::gen::inRange<std::uint64_t>(1, 2000);
    const double p = *rc::gen::inRange(1, 100) * 0.01;
    const Ranks ranks = quantile_ranks(count, p);
    // The quantile is below the low rank when fewer numbers than that lie below it.
    if (ranks.low > 1) RC_ASSERT(at_most(ranks.low - 1, count, p) <= 0.025 + 1e-9);
    RC_ASSERT(at_most(ranks.low, count, p) >= 0.025 - 1e-9);
    if (ranks.high < count) RC_ASSERT(1.0 - at_most(ranks.high - 1, count, p) <= 0.025 + 1e-9);
    if (ranks.high > 1) {
      RC_ASSERT((ranks.high == count || 1.0 - at_most(ranks.high - 2, count, p) >= 0.025 - 1e-9));
    }
  }));
}

TEST_CASE("binomial: shares of nothing break the contract") {
  using tideover::base::ContractFault;
  CHECK_THROWS_AS(static_cast<void>(proportion_of(0, 0)), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(proportion_of(3, 2)), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(proportion_of(1, 2, 1.0)), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(quantile_ranks(0, 0.5)), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(quantile_ranks(9, 1.0)), ContractFault);
}
