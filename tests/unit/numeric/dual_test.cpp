// Derivatives carried along against differences of the values, and rounded corners.
#include "numeric/dual.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "numeric/smooth.hpp"
#include "numeric/wright_omega.hpp"

namespace {

using namespace tideover::numeric;

/// Derivatives of f at (x, y) by Dual numbers and by central differences agree to `relative`.
template <class F>
bool derivatives_agree(F f, double x, double y, double relative = 2e-7) {
  const auto dual = f(Dual<2>::input(x, 0), Dual<2>::input(y, 1));
  const double value = f(x, y);
  // The best step for central differences is the cube root of the last digit.
  const double hx = 6e-6 * std::max(0.1, std::abs(x));
  const double hy = 6e-6 * std::max(0.1, std::abs(y));
  const double dx = (f(x + hx, y) - f(x - hx, y)) / (2.0 * hx);
  const double dy = (f(x, y + hy) - f(x, y - hy)) / (2.0 * hy);
  const double size = std::max({1.0, std::abs(value), std::abs(dx), std::abs(dy)});
  return std::abs(dual.value - value) <= 1e-14 * size &&
         std::abs(dual.slope[0] - dx) < relative * size &&
         std::abs(dual.slope[1] - dy) < relative * size;
}

double between(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 1000001)) * 1e-6;
}

}  // namespace

TEST_CASE("dual: sums, products and quotients, with numbers on either side") {
  CHECK(rc::check([] {
    const double x = between(-3.0, 3.0);
    const double y = between(0.5, 4.0);
    RC_ASSERT(derivatives_agree([](auto a, auto b) { return a + b - a * b + a / b; }, x, y));
    RC_ASSERT(derivatives_agree([](auto a, auto b) { return 2.0 - a * 3.0 + 5.0 / b; }, x, y));
    RC_ASSERT(derivatives_agree([](auto a, auto b) { return (a + 1.0) * (b - 2.0) / 7.0; }, x, y));
    RC_ASSERT(
        derivatives_agree([](auto a, auto b) { return -(1.0 + a) * b + (a - b) * 0.5; }, x, y));
  }));
}

TEST_CASE("dual: exponential, logarithm, root, power and Wright's omega") {
  CHECK(rc::check([] {
    const double x = between(-3.0, 3.0);
    const double y = between(0.5, 4.0);
    RC_ASSERT(
        derivatives_agree([](auto a, auto b) { return exponential(a) * logarithm(b); }, x, y));
    RC_ASSERT(
        derivatives_agree([](auto a, auto b) { return square_root(b) + power(b, 1.7) * a; }, x, y));
    RC_ASSERT(derivatives_agree(
        [](auto a, auto b) { return wright_omega(a * b) + wright_omega(a - 20.0); }, x, y));
  }));
}

TEST_CASE(
    "smooth step and corner: derivatives, and exactly the sharp function outside the window") {
  CHECK(rc::check([] {
    const double width = between(0.01, 1.0);
    const double x = between(-3.0, 3.0);
    const double y = between(-3.0, 3.0);
    // Inside the window the third derivative is of order 1/width^2.
    const double relative = 1e-6 + 1e-9 / (width * width);
    RC_ASSERT(
        derivatives_agree([=](auto a, auto) { return smooth_positive(a, width); }, x, y, relative));
    RC_ASSERT(
        derivatives_agree([=](auto a, auto b) { return smooth_min(a, b, width); }, x, y, relative));
    RC_ASSERT(
        derivatives_agree([=](auto a, auto b) { return smooth_max(a, b, width); }, x, y, relative));
    RC_ASSERT(derivatives_agree([=](auto a, auto) { return smooth_step(a, width); }, x, y,
                                100.0 * relative));
    if (std::abs(x) >= width) {
      RC_ASSERT(smooth_positive(x, width) == std::max(x, 0.0));
      RC_ASSERT(smooth_step(x, width) == (x > 0.0 ? 1.0 : 0.0));
    } else {
      RC_ASSERT(smooth_positive(x, width) >= std::max(x, 0.0));
      RC_ASSERT(smooth_positive(x, width) <= std::max(x, 0.0) + 0.1875 * width + 1e-15);
    }
    if (std::abs(x - y) >= width) {
      RC_ASSERT(std::abs(smooth_min(x, y, width) - std::min(x, y)) < 1e-15);
      RC_ASSERT(std::abs(smooth_max(x, y, width) - std::max(x, y)) < 1e-15);
    }
  }));
}

TEST_CASE("smooth corner: value, slope and curvature pass through both ends of the window") {
  const double width = 0.25;
  const double h = 1e-4;
  const auto slope = [&](double x) {
    return smooth_positive(Dual<1>::input(x, 0), width).slope[0];
  };
  for (const double end : {-width, width}) {
    CAPTURE(end);
    CHECK(smooth_positive(end - 1e-12, width) ==
          doctest::Approx(smooth_positive(end + 1e-12, width)).epsilon(1e-9));
    CHECK(std::abs(slope(end - 1e-9) - slope(end + 1e-9)) < 1e-9);
    const double before = (slope(end) - slope(end - h)) / h;
    const double after = (slope(end + h) - slope(end)) / h;
    CHECK(std::abs(before - after) < 10.0 * h / (width * width));
  }
}
