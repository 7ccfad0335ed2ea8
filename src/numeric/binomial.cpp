#include "numeric/binomial.hpp"

#include <algorithm>

#include <boost/math/distributions/binomial.hpp>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

using boost::math::policies::discrete_quantile;
using boost::math::policies::integer_round_up;
using boost::math::policies::policy;
using boost::math::policies::promote_double;
using Law = boost::math::binomial_distribution<
    double, policy<discrete_quantile<integer_round_up>, promote_double<false>>>;

}  // namespace

Proportion proportion_of(std::uint64_t hits, std::uint64_t trials, double confidence) {
  TIDEOVER_EXPECT(trials > 0 && hits <= trials, "hits among trials");
  TIDEOVER_EXPECT(confidence > 0.0 && confidence < 1.0, "a confidence between 0 and 1");
  const auto n = static_cast<double>(trials);
  const auto k = static_cast<double>(hits);
  const double tail = 0.5 * (1.0 - confidence);
  return {.low = hits == 0 ? 0.0 : Law::find_lower_bound_on_p(n, k, tail),
          .estimate = k / n,
          .high = hits == trials ? 1.0 : Law::find_upper_bound_on_p(n, k, tail)};
}

Ranks quantile_ranks(std::uint64_t count, double p, double confidence) {
  TIDEOVER_EXPECT(count > 0 && p > 0.0 && p < 1.0, "a quantile of some numbers");
  TIDEOVER_EXPECT(confidence > 0.0 && confidence < 1.0, "a confidence between 0 and 1");
  const Law law(static_cast<double>(count), p);
  const double tail = 0.5 * (1.0 - confidence);
  // The least numbers of draws below the quantile that are not too unlikely, either way.
  const auto few = static_cast<std::uint64_t>(boost::math::quantile(law, tail));
  const auto many =
      static_cast<std::uint64_t>(boost::math::quantile(boost::math::complement(law, tail)));
  return {.low = std::clamp(few, std::uint64_t{1}, count),
          .high = std::clamp(many + 1, std::uint64_t{1}, count)};
}

}  // namespace tideover::numeric
