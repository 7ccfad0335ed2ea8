// Losses of a converter from readings at the bench.
#include "part/converter/loss_fit.hpp"

#include <array>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using part::fit_losses;
using part::Losses;
using part::LossReading;

constexpr Losses of_class{5.0_mA, 0.3_V, 80.0_mOhm};

double input_a(const Losses& l, Volt in, Volt out, Ampere i) {
  const double through = i.si();
  return l.idle.si() + through * (out.si() + l.linear.si() + l.square.si() * through) / in.si();
}

LossReading reading_of(const Losses& l, Volt in, Volt out, Ampere i) {
  return {in, Ampere::of_si(input_a(l, in, out, i)), out, i};
}

}  // namespace

TEST_CASE("without readings the class stands") {
  const auto fit = fit_losses(of_class, {});
  CHECK(fit.losses.idle == of_class.idle);
  CHECK(fit.losses.square == of_class.square);
  CHECK(fit.moved_most == "none");
}

TEST_CASE("one reading at light load is met exactly by the idle term, the square term stays") {
  const std::array readings{LossReading{12.0_V, 30.0_mA, 5.0_V, 40.0_mA}};
  const auto fit = fit_losses(of_class, readings);
  CHECK(input_a(fit.losses, 12.0_V, 5.0_V, 40.0_mA) == doctest::Approx(30e-3).epsilon(1e-6));
  CHECK(fit.moved_most == "idle");
  CHECK(fit.losses.idle.si() == doctest::Approx(12.3e-3).epsilon(0.05));
  CHECK(fit.losses.square.si() == doctest::Approx(0.08).epsilon(1e-3));
}

TEST_CASE("one reading at heavy load moves what grows with the current") {
  const std::array readings{LossReading{12.0_V, 1.42_A, 5.0_V, 3.0_A}};
  const auto fit = fit_losses(of_class, readings);
  CHECK(input_a(fit.losses, 12.0_V, 5.0_V, 3.0_A) == doctest::Approx(1.42).epsilon(1e-6));
  CHECK(fit.moved_most != "idle");
}

TEST_CASE("a reading better than any loss allows leaves terms at nothing, never below") {
  const std::array readings{LossReading{12.0_V, 420.0_mA, 5.0_V, 1.0_A}};
  const auto fit = fit_losses({50.0_mA, 0.5_V, 100.0_mOhm}, readings);
  CHECK(fit.losses.idle.si() >= 0.0);
  CHECK(fit.losses.linear.si() >= 0.0);
  CHECK(fit.losses.square.si() >= 0.0);
  CHECK(input_a(fit.losses, 12.0_V, 5.0_V, 1.0_A) == doctest::Approx(0.42).epsilon(1e-4));
}

TEST_CASE("readings made from known losses give these losses back") {
  CHECK(rc::check("five readings", [] {
    const auto share = [](int n) { return 1e-3 * n; };
    const Losses truth{Ampere::of_si(0.02 * share(*rc::gen::inRange(50, 1000))),
                       Volt::of_si(0.8 * share(*rc::gen::inRange(50, 1000))),
                       Ohm::of_si(0.2 * share(*rc::gen::inRange(50, 1000)))};
    const std::array readings{
        reading_of(truth, 12.0_V, 5.0_V, 0.0_A), reading_of(truth, 12.0_V, 5.0_V, 0.2_A),
        reading_of(truth, 20.0_V, 5.0_V, 1.0_A), reading_of(truth, 12.0_V, 5.0_V, 2.0_A),
        reading_of(truth, 12.0_V, 5.0_V, 3.0_A)};
    const auto fit = fit_losses(of_class, readings);
    // The class pulls with a ten-thousandth of the readings' weight, some of it towards terms that
    // the readings tell apart badly.
    RC_ASSERT(std::abs(fit.losses.idle.si() - truth.idle.si()) < 2e-5);
    RC_ASSERT(std::abs(fit.losses.linear.si() - truth.linear.si()) < 5e-3);
    RC_ASSERT(std::abs(fit.losses.square.si() - truth.square.si()) < 2e-3);
    for (const LossReading& r : readings) {
      const double back = input_a(fit.losses, r.input, r.output, r.output_current);
      RC_ASSERT(std::abs(back - r.input_current.si()) < 1e-3 * r.input_current.si() + 1e-6);
    }
  }));
}
