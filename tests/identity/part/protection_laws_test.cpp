// Energy and derivatives of the laws of diodes, clamps, relays, fuses and guards, at random
// arguments.
#include <array>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/clamp_law.hpp"
#include "part/fuse/fuse_link.hpp"
#include "part/ideal_diode/gate_control.hpp"
#include "part/ideal_diode/quiescent_draw.hpp"
#include "part/junction_material.hpp"
#include "part/polarity_guard/guard_channel.hpp"
#include "part/relay/coil_law.hpp"
#include "support/first_law.hpp"

namespace {

using namespace tideover;
using namespace part;

double between(double low, double high) {
  return low + (high - low) * 1e-6 * *rc::gen::inRange(0, 1000001);
}

Junction any_junction() {
  Junction law =
      typical_junction(*rc::gen::inRange(0, 2) == 0 ? Material::Silicon : Material::Schottky);
  law.series_ohm = between(0.001, 1.0);
  law.in_series = *rc::gen::inRange(1, 5);
  law.leak_s = between(1e-9, 1e-4);
  return law;
}

Clamp any_clamp() {
  return {.above = {between(5.0, 60.0), between(0.01, 10.0)},
          .below = {between(0.5, 60.0), *rc::gen::inRange(0, 2) == 0 ? 0.0 : 5.0},
          .leak_s = between(1e-9, 1e-4)};
}

FuseLink any_fuse() {
  static const auto curve = std::make_shared<const FuseCurve>(
      find_gates(FuseStyle::TimeLag, quantity::Ampere::of_si(2.0))->gates, 2.5, FuseLaw::Middle,
      MeltingIntegral{});
  return {.curve = curve,
          .rated_a = between(0.5, 10.0),
          .cold_ohm = between(0.005, 0.5),
          .is_blown = *rc::gen::inRange(0, 4) == 0};
}

/// Bound on imbalance_w: rounding of powers up to some megawatts.
constexpr double balance_w = 1e-6;

}  // namespace

TEST_CASE("first law: junction") {
  CHECK(rc::check("junction", [] {
    const Junction law = any_junction();
    const double base = between(-5.0, 30.0);
    const std::array<double, 4> u{base + between(-60.0, 4.0), base, between(230.0, 420.0), 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, {0.0}, {false, false, true, false})) < balance_w);
    RC_ASSERT(tests::derivative_error(law, u, {0.0}) < 1e-4);
    // Passive and rising: it never gives energy, and more volts are more amperes.
    const double v = u[0] - u[1];
    RC_ASSERT(v * law.current(v, u[2]) >= 0.0);
    RC_ASSERT(law.current(v + 1e-3, u[2]) > law.current(v, u[2]));
  }));
}

TEST_CASE("first law: clamp") {
  CHECK(rc::check("clamp", [] {
    const Clamp law = any_clamp();
    const std::array<double, 4> u{between(-80.0, 80.0), between(-5.0, 5.0), 300.0, 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, {0.0}, {false, false, true, false})) < balance_w);
    RC_ASSERT(tests::derivative_error(law, u, {0.0}) < 1e-3);
    const double v = u[0] - u[1];
    RC_ASSERT(v * law.current(v) >= 0.0);
  }));
}

TEST_CASE("first law: coil") {
  CHECK(rc::check("coil", [] {
    const Coil law{.resistance_ohm = between(20.0, 2000.0), .inductance_h = between(0.01, 5.0)};
    const std::array<double, 4> u{between(-300.0, 60.0), between(-5.0, 5.0), between(250.0, 420.0),
                                  0.0};
    const std::array<double, 2> x{between(-0.2, 0.2), 0.0};
    // imbalance_w takes the stored energy's slope by differences: 1e-6 of some 60 W.
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, x, {false, false, true, false})) < 1e-4);
    RC_ASSERT(tests::derivative_error(law, u, x) < 1e-5);
  }));
}

TEST_CASE("first law: fuse element") {
  CHECK(rc::check("fuse", [] {
    const FuseLink law = any_fuse();
    const std::array<double, 4> u{between(-0.5, 0.5), between(-0.5, 0.5), between(250.0, 350.0),
                                  0.0};
    const std::array<double, 2> x{between(0.0, 1.0), 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, x, {false, false, true, false})) < balance_w);
    // The rate grows with the square of hundreds of times the rated current: a coarse difference.
    RC_ASSERT(tests::derivative_error(law, u, x, 1e-7, 1.0) < 1e-3);
  }));
}

TEST_CASE("first law: channel of an ideal diode, in all its settings") {
  CHECK(rc::check("channel", [] {
    const double on_ohm = between(0.002, 0.1);
    const int setting = *rc::gen::inRange(0, 3);
    const double forward_v = between(0.01, 0.1);
    KneeLaw law =
        setting == 0 ? regulating_channel(forward_v, on_ohm) : blocking_channel(forward_v);
    if (setting == 1) law.conductance_s = 1.0 / on_ohm;
    const std::array<double, 4> u{between(-0.2, 0.2), between(-0.1, 0.1), 300.0, 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, {0.0}, {false, false, true, false})) < balance_w);
    RC_ASSERT(tests::derivative_error(law, u, {0.0}) < 1e-4);
    const double v = u[0] - u[1];
    RC_ASSERT(v * law.current(v) >= 0.0);
  }));
}

TEST_CASE("channel held at its drop: Newton's iteration finds what leakage leaves across it") {
  // The second of two in a row, while the first blocks and lets nanoamperes through.
  const KneeLaw law = regulating_channel(0.02, 0.01);
  constexpr double leak_s = 1e-9;
  for (double v : {-0.3, 0.0, 0.016, 0.02, 0.05, 12.0}) {
    CAPTURE(v);
    for (int turn = 0; turn < 10; ++turn) {
      const numeric::Dual<1> across = numeric::Dual<1>::input(v, 0);
      const numeric::Dual<1> in = law.current(across) + leak_s * (across - 12.0);
      v -= in.value / in.slope[0];
    }
    CHECK(v == doctest::Approx(12.0 * leak_s / (law.conductance_s + leak_s)).epsilon(1e-6));
  }
}

TEST_CASE("first law: a controller's own draw") {
  CHECK(rc::check("draw", [] {
    const QuiescentDraw law{.current_a = between(0.0, 0.01)};
    const std::array<double, 4> u{between(-20.0, 40.0), between(-1.0, 1.0), 300.0, 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, {0.0}, {false, false, true, false})) < balance_w);
    RC_ASSERT(tests::derivative_error(law, u, {0.0}) < 1e-5);
  }));
}

TEST_CASE("first law: channel of a polarity guard") {
  CHECK(rc::check("guard", [] {
    const GuardChannel law{.on_s = between(5.0, 500.0), .threshold_v = between(0.5, 4.0)};
    const double out = between(-20.0, 20.0);
    const std::array<double, 5> u{out + between(-1.0, 1.0), out, between(-1.0, 1.0), 300.0, 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, {0.0}, {false, false, false, true, false})) <
              balance_w);
    RC_ASSERT(tests::derivative_error(law, u, {0.0}) < 1e-4);
  }));
}
