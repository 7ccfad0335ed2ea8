// Energy and derivatives of the laws of lamps, indicators, fans and boxes, at random arguments.
#include <array>
#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/box/box.hpp"
#include "part/box/vent_draught.hpp"
#include "part/capacitor_law.hpp"
#include "part/fan/fan_draw.hpp"
#include "part/led/led_law.hpp"
#include "part/level_indicator/indicator_draw.hpp"
#include "part/resistance.hpp"
#include "support/first_law.hpp"

namespace {

using namespace tideover;
using tests::derivative_error;
using tests::imbalance_w;

double between(double low, double high) {
  return low + (high - low) * 1e-6 * *rc::gen::inRange(0, 1000001);
}

part::IndicatorDraw any_indicator() {
  part::IndicatorDraw law{.current_a = between(0.0, 0.1), .resistive_below_v = between(0.5, 8.0)};
  law.step_count = *rc::gen::inRange(0, 11);
  double above_v = 2.0;
  for (std::size_t k = 0; k < static_cast<std::size_t>(law.step_count); ++k) {
    above_v += between(0.05, 3.0);
    law.steps[k] = {above_v, between(0.0, 0.02)};
  }
  return law;
}

part::FanDraw any_fan() {
  return {.known_v = between(3.0, 24.0),
          .current_a = between(0.01, 0.5),
          .current_exponent = between(0.0, 3.0),
          .airflow_m3_per_s = between(0.0, 0.02),
          .airflow_exponent = between(0.5, 2.0),
          .stall_v = between(1.0, 8.0),
          .air_heat_j_per_m3_k = 1150.0};
}

part::SurfaceFilm any_film() {
  part::BoxSurface surface{.sides = quantity::SquareMetre::of_si(between(0.01, 2.0)),
                           .top = quantity::SquareMetre::of_si(between(0.0, 1.0)),
                           .bottom = quantity::SquareMetre::of_si(between(0.0, 1.0)),
                           .height = quantity::Metre::of_si(between(0.02, 2.0)),
                           .horizontal_length = quantity::Metre::of_si(between(0.01, 0.5)),
                           .emissivity = between(0.02, 1.0),
                           .wall_m2_k_per_w = between(0.0, 0.05)};
  return part::film_of(surface, quantity::Temperature::of_celsius(35.0));
}

}  // namespace

TEST_CASE("an indicator lamp keeps the first law and its derivatives") {
  CHECK(rc::check("led", [] {
    const part::LedLaw law{.forward_v = between(1.0, 20.0), .series_ohm = between(10.0, 1e5)};
    const std::array u{between(-60.0, 60.0), between(-5.0, 5.0), 0.0};
    RC_ASSERT(std::abs(imbalance_w(law, u, {}, {})) < 1e-12);
    RC_ASSERT(derivative_error(law, u, {}) < 1e-4);
  }));
}

TEST_CASE("a charge indicator keeps the first law and its derivatives") {
  CHECK(rc::check("level indicator", [] {
    const auto law = any_indicator();
    const std::array u{between(-30.0, 60.0), between(-5.0, 5.0), 0.0};
    RC_ASSERT(std::abs(imbalance_w(law, u, {}, {})) < 1e-12);
    RC_ASSERT(derivative_error(law, u, {}) < 1e-4);
  }));
}

TEST_CASE("a fan keeps the first law and its derivatives, and its heat adds up") {
  CHECK(rc::check("fan", [] {
    const auto law = any_fan();
    const std::array u{between(-5.0, 30.0), between(-2.0, 2.0), between(260.0, 350.0),
                       between(260.0, 320.0), 0.0};
    RC_ASSERT(std::abs(imbalance_w(law, u, {}, {false, false, true, true})) < 1e-9);
    RC_ASSERT(derivative_error(law, u, {}) < 1e-4);
    std::array<double, 4> flow{};
    law.equations(u.data(), u.data(), flow.data(), flow.data());
    // What the air nodes receive is the electrical power.
    const double electrical_w = u[0] * flow[0] + u[1] * flow[1];
    RC_ASSERT(std::abs(electrical_w + flow[2] + flow[3]) < 1e-9 * (1.0 + std::abs(flow[2])));
  }));
}

TEST_CASE("films of a box have right derivatives, lose no heat, and send it down the slope") {
  CHECK(rc::check("surface film", [] {
    const auto law = any_film();
    const double cool_k = between(250.0, 330.0);
    const std::array u{cool_k + between(-40.0, 60.0), cool_k, 0.0};
    std::array<double, 2> flow{};
    law.equations(u.data(), u.data(), flow.data(), flow.data());
    RC_ASSERT(flow[0] == -flow[1]);
    RC_ASSERT(flow[0] * (u[0] - u[1]) >= 0.0);
    RC_ASSERT(derivative_error(law, u, {}) < 1e-4);
  }));
}

TEST_CASE("films and openings stay smooth where box and ambient are equally warm") {
  const part::SurfaceFilm film =
      part::film_of(part::Box().surface(), quantity::Temperature::of_celsius(35.0));
  const part::VentDraught draught{.area_m2 = 1e-3, .apart_m = 0.1, .air_heat_j_per_m3_k = 1150.0};
  for (const double d : {-0.2, -0.05, -1e-6, 0.0, 1e-6, 0.05, 0.2}) {
    CAPTURE(d);
    const std::array u{298.15 + d, 298.15, 0.0};
    CHECK(derivative_error(film, u, {}) < 1e-4);
    CHECK(derivative_error(draught, u, {}) < 1e-4);
  }
}

TEST_CASE("openings of a box have right derivatives and send heat down the slope") {
  CHECK(rc::check("vent draught", [] {
    const part::VentDraught law{.area_m2 = between(1e-5, 0.05),
                                .apart_m = between(0.0, 2.0),
                                .air_heat_j_per_m3_k = 1150.0};
    const double cool_k = between(250.0, 330.0);
    const std::array u{cool_k + between(-40.0, 60.0), cool_k, 0.0};
    std::array<double, 2> flow{};
    law.equations(u.data(), u.data(), flow.data(), flow.data());
    RC_ASSERT(flow[0] == -flow[1]);
    RC_ASSERT(flow[0] * (u[0] - u[1]) >= 0.0);
    RC_ASSERT(derivative_error(law, u, {}) < 1e-4);
  }));
}

TEST_CASE("resistances and capacitors keep the first law and their derivatives") {
  CHECK(rc::check("resistance and capacitance", [] {
    const part::Resistance cold{between(1e-9, 100.0)};
    const part::WarmResistance warm{between(1e-9, 100.0)};
    const part::Capacitance capacitor{.capacitance_f = between(1e-6, 1.0),
                                      .esr_ohm = between(1e-4, 10.0),
                                      .leak_s = between(0.0, 1e-3)};
    const std::array u{between(-60.0, 60.0), between(-60.0, 60.0), 300.0};
    const double scale_w = 1e-9 * (1.0 + 120.0 * 120.0 * 1e4);
    RC_ASSERT(std::abs(imbalance_w(cold, u, {}, {})) < scale_w);
    RC_ASSERT(std::abs(imbalance_w(warm, {u[0], u[1], u[2], 0.0}, {}, {false, false, true})) <
              scale_w);
    const std::array x{between(-60.0, 60.0), 0.0};
    // stored() is differenced, which leaves 1e-6 of the largest power in it.
    RC_ASSERT(std::abs(imbalance_w(capacitor, u, x, {})) <
              1e-6 * 120.0 * 120.0 / capacitor.esr_ohm);
    RC_ASSERT(derivative_error(capacitor, u, x) < 1e-4);
    RC_ASSERT(derivative_error(warm, {u[0], u[1], u[2], 0.0}, {}) < 1e-4);
  }));
}
