// Uncertainties that draws must come to: the rules of the GUM on sums, products and values that
// share their origin.
#include <cmath>
#include <functional>
#include <span>
#include <vector>

#include <doctest/doctest.h>

#include "numeric/sobol_points.hpp"
#include "quantity/spread.hpp"
#include "support/closeness.hpp"

using namespace tideover;
using quantity::Amount;
using quantity::Origin;
using quantity::Spread;
using tests::relative_error;

namespace {

/// A stated limit, both sides alike.
Amount within(double nominal, double limit) {
  Amount value(nominal - limit, nominal, nominal + limit);
  value.origin = Origin::Datasheet;
  return value;
}

/// A measured value with its standard uncertainty.
Amount measured(double nominal, double deviation) {
  Amount value(nominal - 2.0 * deviation, nominal, nominal + 2.0 * deviation);
  value.origin = Origin::Measured;
  return value;
}

/// Normal draws are cut at three deviations, which takes this off theirs: the root of
/// 1 - 6 phi(3)/(2 Phi(3) - 1).
constexpr double cut_factor = 0.986578;

struct Drawn {
  double mean;
  double deviation;
  double lowest;
  double highest;
};

using Model = std::function<double(std::span<const double>)>;

/// What a model makes of its inputs' draws, 2^14 scrambled Sobol points.
Drawn draw(const std::vector<Amount>& inputs, const Model& model) {
  constexpr std::uint64_t count = 1U << 14U;
  const numeric::SobolPoints points(static_cast<int>(inputs.size()), 1);
  const std::vector<Spread> spreads(inputs.begin(), inputs.end());
  std::vector<double> x(inputs.size());
  Drawn drawn{0.0, 0.0, 1e99, -1e99};
  double squares = 0.0;
  double anchor = 0.0;
  for (std::uint64_t k = 0; k < count; ++k) {
    points.point(k, x);
    for (std::size_t i = 0; i < x.size(); ++i) x[i] = spreads[i].at(x[i]);
    const double y = model(x);
    if (k == 0) anchor = y;
    drawn.mean += (y - anchor) / count;
    squares += (y - anchor) * (y - anchor) / count;
    drawn.lowest = std::min(drawn.lowest, y);
    drawn.highest = std::max(drawn.highest, y);
  }
  drawn.deviation = std::sqrt(squares - drawn.mean * drawn.mean);
  drawn.mean += anchor;
  return drawn;
}

double sum_of(std::span<const double> x) {
  double sum = 0.0;
  for (const double value : x) sum += value;
  return sum;
}

/// A meter's limit: so much of the reading and so many of the last digit.
double meter_limit(double reading, double share, int digits, double digit) {
  return share * reading + digits * digit;
}

}  // namespace

TEST_CASE("a meter's stated accuracy encloses every draw of a reading") {
  // Kwantlen Polytechnic University, Phys 1102 on digital meters: 2.5 % and 3 digits of 0.01 V
  // give 0.83 V at 32.00 V and 0.032 V (36 %) at 0.09 V; another manual: 0.08 % and 2 digits of
  // 0.001 V give 0.0036 V at 2.000 V.
  struct Case {
    double reading;
    double share;
    int digits;
    double digit;
    double limit;
    double to;
  };
  for (const Case& c :
       {Case{32.00, 0.025, 3, 0.01, 0.83, 1e-9}, Case{0.09, 0.025, 3, 0.01, 0.032, 0.02},
        Case{2.000, 0.0008, 2, 0.001, 0.0036, 1e-9}}) {
    const double limit = meter_limit(c.reading, c.share, c.digits, c.digit);
    CHECK(relative_error(limit, c.limit) < c.to);
    const Drawn drawn = draw({within(c.reading, limit)}, sum_of);
    // 2^14 even draws come as near to the ends as one of 2^14 parts.
    CHECK(drawn.highest <= c.reading + limit);
    CHECK(drawn.highest >= c.reading + limit * (1.0 - 2.0 / (1U << 14U)));
    CHECK(drawn.lowest >= c.reading - limit);
    CHECK(drawn.lowest <= c.reading - limit * (1.0 - 2.0 / (1U << 14U)));
  }
}

TEST_CASE("a limit becomes a standard uncertainty by the root of three") {
  // JCGM 100:2008 4.3.7: 12.34 V at 0.5 % and 2 digits of 0.01 V: limit 0.0817, u 0.0472 V, and
  // 0.094 V expanded with k = 2 (computed).
  const double limit = meter_limit(12.34, 0.005, 2, 0.01);
  CHECK(relative_error(limit, 0.0817) < 0.01);
  const Drawn drawn = draw({within(12.34, limit)}, sum_of);
  CHECK(relative_error(drawn.deviation, 0.0472) < 0.01);
  CHECK(relative_error(2.0 * drawn.deviation, 0.094) < 0.01);
}

TEST_CASE("linear propagation: a calibration's budget adds up in squares") {
  // A published exercise in calibration: +-4 mV rectangular, s = 1.2 mV, +-0.5 mV rectangular give
  // u = 2.62 mV, U = 5.24 mV; with the mean of ten readings U = 4.72 mV. The normal part is cut at
  // three deviations, which takes 0.3 % off the whole.
  const Drawn single = draw({within(0.0, 4.0), measured(0.0, 1.2), within(0.0, 0.5)}, sum_of);
  CHECK(relative_error(single.deviation, 2.62) < 0.005);
  CHECK(relative_error(2.0 * single.deviation, 5.24) < 0.005);
  const double of_ten = 1.2 / std::sqrt(10.0);
  const Drawn mean = draw({within(0.0, 4.0), measured(0.0, of_ten), within(0.0, 0.5)}, sum_of);
  CHECK(relative_error(2.0 * mean.deviation, 4.72) < 0.005);
}

TEST_CASE("ten resistors calibrated by one standard are off together") {
  // JCGM 100:2008 5.2.2, example (from memory): ten of 1000 Ohm in series, each compared with the
  // same standard of u = 0.1 Ohm: 1.0 Ohm, not 0.32 Ohm.
  const Drawn together = draw({measured(0.0, 0.1)}, [](std::span<const double> standard) {
    double ohm = 0.0;
    for (int k = 0; k < 10; ++k) ohm += 1000.0 + standard[0];
    return ohm;
  });
  CHECK(together.mean == doctest::Approx(10'000.0).epsilon(1e-9));
  CHECK(relative_error(together.deviation, 1.0 * cut_factor) < 1e-3);
  const Drawn apart = draw(std::vector<Amount>(10, measured(1000.0, 0.1)), sum_of);
  CHECK(relative_error(apart.deviation, 0.1 * std::sqrt(10.0) * cut_factor) < 0.01);
}

TEST_CASE("three cells read with one meter add up in full, not in squares") {
  // The same rule: 10 mV a cell make 30 mV for the pack, with three meters 17.3 mV.
  constexpr double u = 0.010;
  const Drawn one_meter = draw({within(0.0, u * std::sqrt(3.0))}, [](std::span<const double> off) {
    return (3.701 + off[0]) + (3.712 + off[0]) + (3.698 + off[0]);
  });
  CHECK(relative_error(one_meter.deviation, 0.030) < 1e-3);
  const Drawn three = draw(std::vector<Amount>(3, within(3.7, u * std::sqrt(3.0))), sum_of);
  CHECK(relative_error(three.deviation, 0.0173) < 0.005);
}

TEST_CASE("power from volts and amperes: relative uncertainties add up in squares") {
  // 12.34 V (0.5 % and 2 digits) times 1.500 A (1 % and 3 digits of 0.001 A): 18.51 W, u 0.79 %
  // (computed after JCGM 100:2008 5.1.6).
  const std::vector<Amount> inputs{within(12.34, meter_limit(12.34, 0.005, 2, 0.01)),
                                   within(1.500, meter_limit(1.500, 0.01, 3, 0.001))};
  const Drawn power = draw(inputs, [](std::span<const double> x) { return x[0] * x[1]; });
  CHECK(relative_error(power.mean, 18.51) < 1e-3);
  CHECK(relative_error(power.deviation / power.mean, 0.0079) < 0.02);
}
