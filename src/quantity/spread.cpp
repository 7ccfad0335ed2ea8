#include "quantity/spread.hpp"

#include <algorithm>

#include <boost/math/distributions/normal.hpp>

#include "base/contract.hpp"

namespace tideover::quantity {

namespace {

using boost::math::policies::policy;
using boost::math::policies::promote_double;
using Normal = boost::math::normal_distribution<double, policy<promote_double<false>>>;

}  // namespace

Spread::Spread(const Amount& amount, double least_si, double most_si)
    : is_normal_(amount.origin == Origin::Measured), nominal_si_(amount.nominal_si) {
  TIDEOVER_EXPECT(least_si <= nominal_si_ && nominal_si_ <= most_si, "a value that can be");
  below_ = side(nominal_si_ - amount.low_si, nominal_si_ - least_si);
  above_ = side(amount.high_si - nominal_si_, most_si - nominal_si_);
}

Spread::Side Spread::side(double tolerance_si, double room_si) const {
  if (!is_normal_ || tolerance_si == 0.0) return {.width_si = std::min(tolerance_si, room_si)};
  const double deviation_si = tolerance_si / coverage_factor;
  const double cut = std::min(deviations_kept, room_si / deviation_si);
  return {.width_si = deviation_si, .tail = boost::math::cdf(Normal(), -cut)};
}

/// From the nominal value, where `share` is 0, to the side's end, where it is 1.
double Spread::away_si(const Side& side, double share) const {
  if (!is_normal_ || side.width_si == 0.0) return share * side.width_si;
  const double tail = 0.5 - share * (0.5 - side.tail);
  return -side.width_si * boost::math::quantile(Normal(), tail);
}

double Spread::at(double u) const {
  TIDEOVER_EXPECT(u >= 0.0 && u <= 1.0, "a share between 0 and 1");
  if (u < 0.5) return nominal_si_ - away_si(below_, 1.0 - 2.0 * u);
  return nominal_si_ + away_si(above_, 2.0 * u - 1.0);
}

}  // namespace tideover::quantity
