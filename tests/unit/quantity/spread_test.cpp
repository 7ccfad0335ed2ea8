#include "quantity/spread.hpp"

#include <cmath>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"
#include "quantity/text.hpp"
#include "quantity/units.hpp"

namespace {

using namespace tideover;
using quantity::Amount;
using quantity::Origin;
using quantity::Spread;

Amount amount(double low, double nominal, double high, Origin origin) {
  Amount value(low, nominal, high);
  value.origin = origin;
  return value;
}

struct Moments {
  double mean;
  double deviation;
};

/// Of draws at 20 000 shares in even steps.
Moments moments_of(const Spread& spread) {
  constexpr int steps = 20'000;
  double sum = 0.0;
  double squares = 0.0;
  for (int k = 0; k < steps; ++k) {
    const double value = spread.at((k + 0.5) / steps);
    sum += value;
    squares += value * value;
  }
  const double mean = sum / steps;
  return {mean, std::sqrt(squares / steps - mean * mean)};
}

}  // namespace

TEST_CASE("spread: a datasheet's 24.1 V +/- 1 % is anywhere between its ends alike") {
  auto output = quantity::read_value<quantity::Volt>("24.1 V +/- 1 %").value();
  output.origin = Origin::Datasheet;
  const Spread spread(output);
  CHECK(spread.at(0.0) == doctest::Approx(23.859).epsilon(1e-12));
  CHECK(spread.at(0.25) == doctest::Approx(23.9795).epsilon(1e-12));
  CHECK(spread.at(1.0) == doctest::Approx(24.341).epsilon(1e-12));
  // Standard uncertainty of a rectangle: half its width over the root of three.
  CHECK(moments_of(spread).deviation == doctest::Approx(0.241 / std::sqrt(3.0)).epsilon(1e-4));
}

TEST_CASE("spread: what was measured to +/- 2 % is normal with one percent as its deviation") {
  auto draw = quantity::read_value<quantity::Watt>("3.1 W +/- 2 %").value();
  draw.origin = Origin::Measured;
  const Spread spread(draw);
  CHECK(spread.at(0.5) == 3.1);
  // A share of 0.8413 lies below one deviation; the cut moves that by 0.1 %.
  CHECK(spread.at(0.841344746) == doctest::Approx(3.131).epsilon(1e-4));
  CHECK(spread.at(0.0) == doctest::Approx(3.1 * 0.97).epsilon(1e-12));
  CHECK(spread.at(1.0) == doctest::Approx(3.1 * 1.03).epsilon(1e-12));
  // A normal cut at three deviations: 1 - 6 phi(3)/(2 Phi(3) - 1) = 0.97334 of the variance.
  CHECK(moments_of(spread).deviation == doctest::Approx(0.031 * std::sqrt(0.973337)).epsilon(1e-3));
}

TEST_CASE("spread: unequal tolerances leave the nominal value the median") {
  const Spread stated(amount(80.0, 100.0, 105.0, Origin::Typical));
  CHECK(stated.at(0.5) == 100.0);
  CHECK(stated.at(0.25) == doctest::Approx(90.0));
  CHECK(stated.at(0.75) == doctest::Approx(102.5));
  const Spread measured(amount(96.0, 100.0, 102.0, Origin::Measured));
  CHECK(measured.at(0.5) == 100.0);
  CHECK(measured.at(0.0) == doctest::Approx(94.0));
  CHECK(measured.at(1.0) == doctest::Approx(103.0));
}

TEST_CASE("spread: nothing is drawn from where nothing can be") {
  // A state of charge measured as 99 % +/- 2 points: the tail above 100 % is cut, not heaped up.
  const Spread charge(amount(0.97, 0.99, 1.01, Origin::Measured), 0.0, 1.0);
  CHECK(charge.at(1.0) == doctest::Approx(1.0).epsilon(1e-12));
  CHECK(charge.at(0.9) < charge.at(0.95));
  CHECK(charge.at(0.0) == doctest::Approx(0.96));
  CHECK(charge.at(0.5) == 0.99);
  const Spread stated(amount(0.97, 0.99, 1.01, Origin::Assumed), 0.0, 1.0);
  CHECK(stated.at(1.0) == 1.0);
  CHECK(stated.at(0.75) == doctest::Approx(0.995));
  const Spread full(amount(0.98, 1.0, 1.02, Origin::Measured), 0.0, 1.0);
  CHECK(full.at(0.8) == 1.0);
  CHECK_THROWS_AS(Spread(amount(1.1, 1.2, 1.3, Origin::Assumed), 0.0, 1.0), base::ContractFault);
}

TEST_CASE("spread: a value without tolerance is drawn as it stands") {
  const Spread fixed(amount(5.0, 5.0, 5.0, Origin::Measured));
  CHECK(fixed.is_fixed());
  CHECK(fixed.at(0.01) == 5.0);
  CHECK(fixed.at(0.99) == 5.0);
  CHECK_FALSE(Spread(amount(5.0, 5.0, 5.1, Origin::Assumed)).is_fixed());
}

TEST_CASE("spread: a draw rises with its share, whatever the value") {
  CHECK(rc::check([] {
    const double nominal = *rc::gen::inRange(-1000, 1000) * 0.01;
    const double below = *rc::gen::inRange(0, 300) * 0.01;
    const double above = *rc::gen::inRange(0, 300) * 0.01;
    const auto origin = *rc::gen::element(Origin::Measured, Origin::Datasheet, Origin::Typical);
    const Spread spread(amount(nominal - below, nominal, nominal + above, origin));
    double before = spread.at(0.0);
    for (int k = 1; k <= 200; ++k) {
      const double value = spread.at(k * 0.005);
      RC_ASSERT(value >= before);
      before = value;
    }
    const double reach = origin == Origin::Measured ? 1.5 : 1.0;
    RC_ASSERT(std::abs(spread.at(0.0) - (nominal - reach * below)) < 1e-9);
    RC_ASSERT(std::abs(spread.at(1.0) - (nominal + reach * above)) < 1e-9);
  }));
}
