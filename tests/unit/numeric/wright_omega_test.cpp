#include "numeric/wright_omega.hpp"

#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

using tideover::numeric::Dual;
using tideover::numeric::wright_omega;
using tideover::numeric::wright_omega_value;

TEST_CASE("given any x, then w + ln w gives it back") {
  CHECK(rc::check("definition", [] {
    const double x = 1e-3 * *rc::gen::inRange(-500000, 2000000);
    const double w = wright_omega_value(x);
    RC_ASSERT(w > 0.0);
    // Two roundings of x and one of ln w, seen through dw/dx = w / (1 + w).
    RC_ASSERT(std::abs(w + std::log(w) - x) <=
              4e-16 * (std::abs(x) + w + 1.0) * (1.0 + 1.0 / w) + 4e-15);
  }));
}

TEST_CASE("omega(0) is the omega constant and omega(1) is 1 (OEIS A030178)") {
  CHECK(wright_omega_value(0.0) == doctest::Approx(0.567143290409783873).epsilon(1e-15));
  CHECK(wright_omega_value(1.0) == doctest::Approx(1.0).epsilon(1e-15));
}

TEST_CASE("given the ends of the number range, then there is neither overflow nor a jump") {
  CHECK(wright_omega_value(-1e6) == 0.0);
  CHECK(wright_omega_value(1e12) == doctest::Approx(1e12 - std::log(1e12)).epsilon(1e-15));
  for (const double seam : {-37.0, -1.0, 4.0}) {
    const double below = wright_omega_value(std::nextafter(seam, -1e9));
    CHECK(wright_omega_value(seam) == doctest::Approx(below).epsilon(1e-14));
  }
}

TEST_CASE("given a dual number, then the derivative is that of finite differences") {
  for (const double x : {-60.0, -5.0, -0.5, 0.0, 1.0, 7.0, 300.0}) {
    const auto w = wright_omega(Dual<1>::input(x, 0));
    const double h = 1e-5;
    const double difference = (wright_omega_value(x + h) - wright_omega_value(x - h)) / (2.0 * h);
    CHECK(w.slope[0] == doctest::Approx(difference).epsilon(1e-8));
  }
}
