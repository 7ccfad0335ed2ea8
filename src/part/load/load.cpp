#include "part/load/load.hpp"

#include "part/installer.hpp"
#include "part/load/load_service.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// A load that has aged, has been extended or was measured while it rested. Assumed.
constexpr double greed = 1.5;

}  // namespace

const Description& ProfileStretch::describe() {
  static const Description description =
      Describe<ProfileStretch>("profile stretch", "One stretch of a load's repeating profile.")
          .text("name", &ProfileStretch::name, "profile it belongs to")
          .value("draws", &ProfileStretch::draws, {0.0_W, 1000.0_W}, "power drawn in this stretch")
          .required()
          .value("lasts", &ProfileStretch::lasts, {1.0_ms, 30.0_d}, "how long it lasts")
          .required()
          .done();
  return description;
}

const Description& Load::describe() {
  static const Description description =
      Describe<Load>("load", "A device that the supply carries through the outage.")
          .value("draws", &Load::draws, {0.0_W, 1000.0_W}, "power it draws, whatever its voltage")
          .value("draws_current", &Load::draws_current, {0.0_A, 100.0_A},
                 "current it draws, if that is what stays constant")
          .value("draws_resistance", &Load::draws_resistance, {0.01_Ohm, 10.0_MOhm},
                 "resistance it shows, if that is what stays constant")
          .records("profile", &Load::profile, 0, 500, "how its draw changes, round and round")
          .range("accepts", &Load::accepts, {0.5_V, 60.0_V}, "input voltages at which it works")
          .required()
          .value("resistive_below", &Load::resistive_below, {0.0_V, 60.0_V},
                 "below this voltage it no longer holds its power and behaves as a resistance",
                 "six tenths of the lowest accepted voltage, assumed")
          .value("rides", &Load::rides, {0.0_s, 60.0_s},
                 "how long it keeps working with its input out of range", "assumed: not at all")
          .value("boot", &Load::boot, {0.0_s, 1.0_d}, "from power back to service",
                 "assumed: at once")
          .value("input_capacitance", &Load::input_capacitance, {0.0_F, 1.0_F},
                 "capacitance at its input", "typical of small devices, from memory")
          .value("input_esr", &Load::input_esr, {1.0_mOhm, 100.0_Ohm},
                 "series resistance of that capacitance",
                 "typical of electrolytic capacitors of that size, from memory")
          .value("off_draw", &Load::off_draw, {0.0_A, 1.0_A},
                 "current it still draws when it is off, at the lowest voltage it works at",
                 "typical of an input converter in lockout, from memory")
          .value("signal_resistance", &Load::signal_resistance, {1.0_mOhm, 1.0_MOhm},
                 "inside it, between return and signal ground",
                 "typical of a shared ground plane and its connector, from memory")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> Load::clone() const { return std::make_unique<Load>(*this); }

std::vector<Terminal> Load::terminals() const {
  return {{"plus", Role::Plus, true, "feeds " + name},
          {"minus", Role::Minus, true, "return of " + name},
          {"signal", Role::Signal, false, "signal ground of " + name}};
}

std::vector<FailureMode> Load::failure_modes() const {
  return {{"shorted", "its input is a short circuit", {bridged("plus", "minus")}},
          {"dead", "it draws nothing", {opened("plus")}},
          {"plug half in", "its plug makes a poor contact", {resistive("plus", poor_contact)}},
          {"reversed", "its plus and its minus are swapped", {exchanged("plus", "minus")}},
          {"greedy", "it draws half as much again as stated", {}, altering<Load>([](Load& load) {
             load.draw_more(greed);
           })}};
}

void Load::draw_more(double factor) {
  scale(draws, factor);
  scale(draws_current, factor);
  scale(draws_resistance, 1.0 / factor);
  for (ProfileStretch& stretch : profile) scale(stretch.draws, factor);
}

std::vector<TestPoint> Load::test_points() const {
  return {{"plus", "minus", "voltage at the load"}};
}

std::vector<std::string> Load::contradictions() const {
  const int stated = int{draws.given} + int{draws_current.given} + int{draws_resistance.given} +
                     int{!profile.empty()};
  if (stated == 1) return {};
  return {"draws: say exactly one of draws, draws_current, draws_resistance or profile"};
}

Watt Load::mean_power(std::string_view word) const {
  Joule energy;
  Second length;
  for (const ProfileStretch& stretch : profile) {
    if (stretch.name != word) continue;
    energy += stretch.draws.nominal() * stretch.lasts.nominal();
    length += stretch.lasts.nominal();
  }
  return length.si() > 0.0 ? energy / length : draws.nominal();
}

void Load::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  LoadDraw draw{.share = 0.0};
  draw.resistive_below_v =
      resistive_below.si() > 0.0 ? resistive_below.si() : 0.6 * accepts.low().si();
  draw.off_s = off_draw.si() / accepts.low().si();
  if (draws_current.given) {
    draw.current_a = draws_current.si();
  } else if (draws_resistance.given) {
    draw.conductance_s = 1.0 / draws_resistance.si();
  } else {
    draw.power_w = profile.empty() ? draws.si() : mean_power(profile.front().name).si();
  }
  const auto drawn = installer.add(draw, {plus, minus}, "draw");
  if (input_capacitance.si() > 0.0) {
    installer.add(Capacitance{.capacitance_f = input_capacitance.si(), .esr_ohm = input_esr.si()},
                  {plus, minus}, {{{"input capacitor", 0.0, accepts.high().si()}}}, "input");
  }
  installer.add(Resistance{1.0 / signal_resistance.si()}, {minus, installer.node("signal")},
                "ground");
  installer.add_behaviour(std::make_unique<LoadService>(*this, drawn, plus, minus));

  const std::size_t voltage = installer.watch_voltage("input voltage", plus, minus);
  installer.watch("current", Ampere::dimension,
                  [drawn, plus, minus](const network::Network& net, const network::View& view) {
                    return net.law(drawn).current_a_at(view.between(plus, minus));
                  });
  installer.rate("highest input voltage", voltage, accepts.high().si(), true, 0.0_s, "as stated");
  installer.watch_polarity(voltage);
}

}  // namespace tideover::part
