#include "part/fan/fan.hpp"

#include <cmath>

#include <fmt/format.h>

#include "part/air_properties.hpp"
#include "part/fan/fan_laws.hpp"
#include "part/installer.hpp"
#include "quantity/show.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

constexpr auto no_airflow = CubicMetrePerSecond::of_si(0.0);
constexpr auto gale = CubicMetrePerSecond::of_si(0.5);

/// A brushless fan that cannot turn tries again and again; its mean current against that of the
/// turning one is assumed.
constexpr double blocked_current = 1.5;

/// Exponent of a power law through two points.
double exponent_through(double v1, double y1, double v2, double y2) {
  return std::log(y2 / y1) / std::log(v2 / v1);
}

}  // namespace

const Description& FanPoint::describe() {
  static const Description description =
      Describe<FanPoint>("fan point", "What a fan did at one voltage.")
          .value("voltage", &FanPoint::voltage, {1_V, 60_V}, "voltage at the fan")
          .required()
          .value("current", &FanPoint::current, {1_mA, 10_A}, "current it drew")
          .required()
          .value("airflow", &FanPoint::airflow, {no_airflow, gale}, "air it moved freely")
          .done();
  return description;
}

const Description& Fan::describe() {
  static const Description description =
      Describe<Fan>("fan", "Blows the air of the box out.")
          .value("rated_voltage", &Fan::rated_voltage, {1_V, 60_V}, "voltage on its label")
          .required()
          .value("rated_current", &Fan::rated_current, {1_mA, 10_A},
                 "current on its label, at rated voltage; a measured point overrides it")
          .value("airflow", &Fan::airflow, {no_airflow, gale},
                 "air it moves freely at rated voltage", "typical of 40 mm fans, from memory")
          .records("measured", &Fan::measured, 0, 2, "one or two voltages at which it was measured")
          .value("stall", &Fan::stall, {0.5_V, 60_V}, "below this voltage it stands still",
                 "four tenths of the rated voltage, typical of brushless fans, from memory")
          .value("current_exponent", &Fan::current_exponent, {0_ratio, 3_ratio},
                 "power of the voltage that its current goes with; two measured points replace it",
                 "typical of small brushless fans, from memory")
          .value("breathes", &Fan::breathes, {0_ratio, 1_ratio},
                 "share of its free airflow that is left against the openings of the box",
                 "typical of a finger guard and openings as large as the fan, from memory")
          .choice("blows", &Fan::blows, {"through", "inside"},
                  "whether its air leaves the box or only stirs in it", "the usual use, assumed")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Fan::clone() const { return std::make_unique<Fan>(*this); }

std::vector<Terminal> Fan::terminals() const {
  return {{"plus", Role::Plus, true, "feeds " + name},
          {"minus", Role::Minus, true, "return of " + name}};
}

std::vector<FailureMode> Fan::failure_modes() const {
  std::vector<FailureMode> modes{
      {"stopped", "it stands still and draws nothing", {opened("plus")}},
      {"shorted", "its input is a short circuit", {bridged("plus", "minus")}},
      {"reversed",
       "its plus and its minus are swapped: it stands still",
       {exchanged("plus", "minus")}},
      {"blocked", "it stands still and draws half as much again", {}, altering<Fan>([](Fan& fan) {
         fan.alter(0.0, blocked_current);
       })}};
  if (blows == FanBlows::Through) {
    modes.push_back({"dusty", "it moves half the air", {}, altering<Fan>([](Fan& fan) {
                       fan.alter(0.5, 1.0);
                     })});
  }
  return modes;
}

void Fan::alter(double airflow_factor, double current_factor) {
  scale(airflow, airflow_factor);
  scale(rated_current, current_factor);
  for (FanPoint& point : measured) {
    scale(point.airflow, airflow_factor);
    scale(point.current, current_factor);
  }
}

std::vector<TestPoint> Fan::test_points() const {
  return {{"plus", "minus", "voltage at the fan"}};
}

std::vector<std::string> Fan::contradictions() const {
  std::vector<std::string> found;
  if (measured.empty() && !rated_current.given) {
    found.emplace_back("rated_current: say what it draws, by its label or by a measured point");
  }
  if (measured.size() == 2) {
    const double v1 = measured[0].voltage.si();
    const double v2 = measured[1].voltage.si();
    if (std::abs(v1 - v2) < 0.05 * rated_voltage.si()) {
      found.emplace_back("measured: two points need voltages a twentieth apart or more");
    } else if (fitted_current_exponent() < 0.0 || fitted_current_exponent() > 3.0) {
      found.emplace_back(
          "measured: no fan draws so; its current rises with the voltage, at most with its cube");
    }
  }
  if (stall_voltage() >= rated_voltage.nominal()) {
    found.emplace_back("stall: must lie below rated_voltage");
  }
  return found;
}

std::vector<std::string> Fan::remarks() const {
  if (measured.empty() || !rated_current.given) return {};
  const FanPoint& point = measured.front();
  return {fmt::format(
      "rated_current: {} by its label, {} as measured at {}; what was measured counts",
      show(rated_current.nominal()), show(point.current.nominal()), show(point.voltage.nominal()))};
}

Volt Fan::stall_voltage() const {
  return stall.given ? stall.nominal() : 0.4 * rated_voltage.nominal();
}

double Fan::fitted_current_exponent() const {
  return exponent_through(measured[0].voltage.si(), measured[0].current.si(),
                          measured[1].voltage.si(), measured[1].current.si());
}

FanDraw Fan::law() const {
  FanDraw draw{.known_v = rated_voltage.si(),
               .current_a = rated_current.si(),
               .current_exponent = current_exponent.si(),
               .stall_v = stall_voltage().si(),
               .air_heat_j_per_m3_k = air_heat_per_volume(30_degC)};
  if (!measured.empty()) {
    draw.known_v = measured.front().voltage.si();
    draw.current_a = measured.front().current.si();
  }
  if (measured.size() == 2) draw.current_exponent = fitted_current_exponent();
  set_airflow(draw);
  return draw;
}

void Fan::set_airflow(FanDraw& draw) const {
  // Free airflow goes with the speed and the speed with the voltage, unless measured otherwise.
  double at_v = rated_voltage.si();
  double free_m3_per_s = airflow.si();
  double exponent = 1.0;
  std::vector<const FanPoint*> known;
  for (const FanPoint& point : measured) {
    if (point.airflow.given && point.airflow.si() > 0.0) known.push_back(&point);
  }
  if (!known.empty()) {
    at_v = known.front()->voltage.si();
    free_m3_per_s = known.front()->airflow.si();
  }
  if (known.size() == 2) {
    exponent =
        exponent_through(at_v, free_m3_per_s, known[1]->voltage.si(), known[1]->airflow.si());
  }
  const double leaves_box = blows == FanBlows::Through ? breathes.si() : 0.0;
  draw.airflow_exponent = exponent;
  draw.airflow_m3_per_s = leaves_box * free_m3_per_s * std::pow(draw.known_v / at_v, exponent);
}

double Fan::noise_change_db(Volt voltage) const {
  // The speed, as the free airflow, goes with the voltage.
  return fan_at_speed(voltage.si() / rated_voltage.si()).noise_db;
}

void Fan::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  const auto motor =
      installer.add(law(), {plus, minus, installer.air(), installer.ambient()}, "motor");
  const std::size_t voltage = installer.watch_voltage("voltage", plus, minus);
  installer.watch("current", Ampere::dimension,
                  [motor, plus, minus](const network::Network& net, const network::View& view) {
                    return net.law(motor).current_a_at(view.between(plus, minus));
                  });
  installer.watch("airflow", CubicMetrePerSecond::dimension,
                  [motor, plus, minus](const network::Network& net, const network::View& view) {
                    return net.law(motor).airflow_m3_per_s_at(view.between(plus, minus));
                  });
  installer.rate("voltage", voltage, 1.15 * rated_voltage.si(), true, 60_s,
                 "15 % above its label, typical of fan data sheets, from memory");
  installer.watch_polarity(voltage);
}

}  // namespace tideover::part
