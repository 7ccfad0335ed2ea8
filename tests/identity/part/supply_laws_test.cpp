// Energy and derivatives of the laws of adapters, converters and chargers, at random arguments.
#include <array>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/adapter/adapter_stage.hpp"
#include "part/converter/power_stage.hpp"
#include "part/knee_law.hpp"
#include "support/first_law.hpp"

namespace {

using namespace tideover;
using part::AdapterStage;
using part::KneeLaw;
using part::PowerStage;

double between(double low, double high) {
  return low + (high - low) * 1e-6 * *rc::gen::inRange(0, 1000001);
}
double one_of(double a, double b) { return *rc::gen::inRange(0, 2) == 0 ? a : b; }

AdapterStage any_adapter() {
  AdapterStage law;
  law.set_v = between(5.0, 24.0);
  law.source_ohm = between(0.005, 0.5);
  law.limit_a = between(0.5, 5.0);
  law.fold_share = one_of(1.0, between(0.05, 0.9));
  law.idle_w = between(0.0, 0.5);
  law.linear_v = between(0.0, 2.0);
  law.square_ohm = between(0.0, 0.5);
  law.full_j = between(0.1, 2.0);
  law.capacitor = {between(1e-4, 2e-3), between(0.01, 0.2), between(0.0, 1e-3)};
  law.mains = one_of(0.0, 1.0);
  law.running = one_of(0.0, 1.0);
  if (*rc::gen::inRange(0, 3) == 0) {
    const double v = law.set_v;
    law.curve =
        numeric::Table({-2.0, -1.0, 0.0, 0.7 * v, 0.95 * v, v}, {1.3, 1.3, 1.3, 1.2, 1.0, 0.0});
  }
  return law;
}

PowerStage any_converter() {
  PowerStage law;
  law.set_v = between(1.0, 30.0);
  law.output_ohm = between(0.005, 0.1);
  law.limit_a = between(0.05, 5.0);
  law.input_limit_a = between(0.1, 6.0);
  law.raises = *rc::gen::inRange(0, 2) == 0;
  law.passes = !law.raises && *rc::gen::inRange(0, 3) == 0;
  law.highest_gain = law.raises ? between(2.0, 7.0) : between(0.8, 1.0);
  law.lowest_gain = one_of(1.0, 0.2);
  law.path_ohm = between(0.02, 1.0);
  law.drop_v = between(0.0, 1.5);
  law.draw_a = between(0.0, 0.02);
  law.linear_v = between(0.0, 1.0);
  law.square_ohm = between(0.0, 0.3);
  law.floor_v = between(0.5, 4.0);
  law.capacitor = {between(2e-5, 1e-3), between(0.01, 0.2), between(0.0, 1e-3)};
  law.running = one_of(0.0, 1.0);
  return law;
}

}  // namespace

TEST_CASE("an adapter's law keeps the first law of thermodynamics") {
  CHECK(rc::check("first law", [] {
    const AdapterStage law = any_adapter();
    const std::array<double, 4> u{between(-3.0, 30.0), between(-2.0, 2.0), between(260.0, 420.0),
                                  0.0};
    const std::array<double, 4> x{between(0.0, law.full_j), between(0.0, 1.0),
                                  u[0] - u[1] + between(-1.0, 1.0), 0.0};
    // A volt across 10 mohm moves 100 uF by 10^6 V/s: the last digit of the stored joules, divided
    // by the central difference's step, comes to microwatts beside kilowatts.
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, x, {false, false, true, false})) < 1e-5);
  }));
}

TEST_CASE("an adapter makes no energy: its heat is never negative and is what the body gets") {
  CHECK(rc::check("second law", [] {
    const AdapterStage law = any_adapter();
    const double u[3] = {between(-3.0, 30.0), between(-2.0, 2.0), between(260.0, 420.0)};
    const double x[3] = {between(0.0, law.full_j), between(0.0, 1.0),
                         u[0] - u[1] + between(-1.0, 1.0)};
    double flow[3];
    double rate[3];
    law.equations(u, x, flow, rate);
    network::Ledger books;
    law.ledger(u, x, books);
    RC_ASSERT(books.lost_w >= 0.0);
    RC_ASSERT(std::abs(books.lost_w + flow[2]) < 1e-9);
  }));
}

TEST_CASE("an adapter's derivatives are those of its law") {
  CHECK(rc::check("derivatives", [] {
    const AdapterStage law = any_adapter();
    const std::array<double, 4> u{between(-3.0, 30.0), between(-1.0, 1.0), between(330.0, 390.0),
                                  0.0};
    const std::array<double, 4> x{between(0.0, law.full_j), between(0.0, 1.0),
                                  u[0] - u[1] + between(-1.0, 1.0), 0.0};
    // Corners are 2 mV wide where the source is stiffest: the central difference over 2e-8 sees
    // their curvature at 1e-4, and 1000 A/V slopes cancel to 1e-5.
    RC_ASSERT(tests::derivative_error(law, u, x, 1e-8, 1e-1) < 2e-3);
  }));
}

TEST_CASE("a converter's law keeps the first law of thermodynamics") {
  CHECK(rc::check("first law", [] {
    const PowerStage law = any_converter();
    const std::array<double, 6> u{between(-4.0, 40.0),
                                  between(-1.0, 1.0),
                                  between(-3.0, 35.0),
                                  between(-1.0, 1.0),
                                  300.0,
                                  0.0};
    const std::array<double, 3> x{between(0.0, 1.0), u[2] - u[3] + between(-1.0, 1.0), 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, x, {false, false, false, false, true, false})) <
              1e-5);
  }));
}

TEST_CASE("a converter makes no energy, at no voltages whatever") {
  CHECK(rc::check("second law", [] {
    const PowerStage law = any_converter();
    const double u[5] = {between(-4.0, 40.0), 0.0, between(-3.0, 35.0), 0.0, 300.0};
    // A linear regulator hands its current on: its capacitor must not stand apart from its output.
    const double apart_v = law.passes ? 0.0 : between(-1.0, 1.0);
    const double x[2] = {between(0.0, 1.0), u[2] + apart_v};
    double flow[5];
    double rate[2];
    law.equations(u, x, flow, rate);
    network::Ledger books;
    law.ledger(u, x, books);
    // A linear regulator's corners let it pass its rounding width against a drop of nothing:
    // 2e-3 of its limit times millivolts.
    RC_ASSERT(books.lost_w >= -1e-3);
    RC_ASSERT(std::abs(books.lost_w + flow[4]) < 1e-9);
  }));
}

TEST_CASE("a converter's derivatives are those of its law") {
  CHECK(rc::check("derivatives", [] {
    const PowerStage law = any_converter();
    const std::array<double, 6> u{between(-4.0, 40.0),
                                  between(-1.0, 1.0),
                                  between(-3.0, 35.0),
                                  between(-1.0, 1.0),
                                  300.0,
                                  0.0};
    const std::array<double, 3> x{between(0.0, 1.0), u[2] - u[3] + between(-1.0, 1.0), 0.0};
    RC_ASSERT(tests::derivative_error(law, u, x, 1e-8, 1e-1) < 2e-3);
  }));
}

TEST_CASE("a converter takes no more than its input limit, and nothing near zero volts") {
  CHECK(rc::check("well-posed input", [] {
    PowerStage law = any_converter();
    law.running = 1.0;
    const double v_in = between(0.0, 40.0);
    const double u[5] = {v_in, 0.0, between(0.0, 35.0), 0.0, 300.0};
    const double x[2] = {between(0.0, 1.0), u[2]};
    double flow[5];
    double rate[2];
    law.equations(u, x, flow, rate);
    // The corner of the limit is 2 % of the output limit wide.
    const double corner_w =
        0.02 * law.limit_a * (u[2] + law.linear_v + law.square_ohm * law.limit_a);
    const double corner_a =
        law.passes ? 0.02 * law.limit_a : corner_w / std::max(v_in, law.floor_v);
    RC_ASSERT(flow[0] <= law.input_limit_a + law.draw_a + corner_a);
    if (v_in < 1.1 * law.floor_v) RC_ASSERT(flow[2] >= 0.0);
    if (v_in < 1.1 * law.floor_v) RC_ASSERT(flow[0] <= law.draw_a);
  }));
}

TEST_CASE("a body diode keeps the first law and its derivatives") {
  CHECK(rc::check("body diode", [] {
    const KneeLaw law{.beyond_s = 1.0 / between(0.02, 1.0), .knee_v = between(0.3, 0.8)};
    const std::array<double, 4> u{between(-5.0, 5.0), between(-5.0, 5.0), 300.0, 0.0};
    RC_ASSERT(std::abs(tests::imbalance_w(law, u, {0.0}, {false, false, true, false})) < 1e-9);
    RC_ASSERT(tests::derivative_error(law, u, {0.0}) < 1e-4);
  }));
}
