#include "part/charger/charger.hpp"

#include "part/charger/charger_control.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Typical of multi-cell charger boards, from memory.
constexpr double again_below_voltage = 0.95;
/// Typical of chargers' gentle start, from memory.
constexpr double gentle_share = 0.1;
constexpr Temperature no_sensor = Temperature::of_celsius(-60.0);

}  // namespace

Charger::Charger() { blocks_back = true; }

const Description& Charger::describe() {
  static const Description description = [] {
    Describe<Charger> d("charger", "Charges the pack from an adapter's spare current.");
    d.value("voltage", &Charger::voltage, {1.0_V, 60.0_V}, "voltage limit its adjustment is set to")
        .required();
    d.value("current", &Charger::current, {1.0_mA, 30.0_A},
            "current limit its adjustment is set to")
        .required();
    d.value("ends_at", &Charger::ends_at, {0.0_A, 10.0_A},
            "current at which it turns itself off at its voltage limit",
            "never: a plain board with two adjustments holds its voltage");
    d.value("begins_again_below", &Charger::begins_again_below, {0.0_V, 60.0_V},
            "pack voltage at which it begins again after it has ended",
            "5 % below its voltage limit, typical of multi-cell boards, from memory");
    d.value("full_below", &Charger::full_below, {1.0_mA, 10.0_A},
            "current at its voltage limit at which the pack counts as full, if it never ends",
            "0.02 C of a 2.5 Ah cell, common practice");
    d.value("gentle_below", &Charger::gentle_below, {0.0_V, 60.0_V},
            "pack voltage below which it charges gently", "no gentle start, assumed");
    d.value("gentle_current", &Charger::gentle_current, {0.0_A, 10.0_A}, "current it then gives",
            "a tenth of its current limit, typical, from memory");
    d.value("gives_up_after", &Charger::gives_up_after, {0.0_s, 30.0_d},
            "longest charge before it turns itself off until its input has been away",
            "no such timer, assumed");
    d.value("waits_below", &Charger::waits_below, {no_sensor, 60.0_degC},
            "air temperature below which it does not charge", "no such sensor, assumed");
    d.value("back_drain", &Charger::back_drain, {0.0_A, 1.0_A},
            "current it takes out of a full pack through its output while it has no input",
            "typical of the divider of a small board, from memory");
    d.value("output_resistance", &Charger::output_resistance, {1.0_mOhm, 1.0_Ohm},
            "how far its voltage limit falls per ampere", "typical, from memory");
    d.with(fields_of_converter_boards());
    return d.done();
  }();
  return description;
}

std::unique_ptr<Part> Charger::clone() const { return std::make_unique<Charger>(*this); }

std::vector<std::string> Charger::contradictions() const {
  std::vector<std::string> wrong = contradictions_of_board();
  const ChargePlan at = plan();
  if (at.ends_a >= at.current_a) {
    wrong.emplace_back(at.ends ? "ends_at: must lie below current"
                               : "full_below: must lie below current");
  }
  if (at.again_v >= at.voltage_v) {
    wrong.emplace_back("begins_again_below: must lie below voltage");
  }
  if (at.gentle_below_v >= at.voltage_v) wrong.emplace_back("gentle_below: must lie below voltage");
  if (at.gentle_a > at.current_a) wrong.emplace_back("gentle_current: is more than current");
  if (topology == Topology::StepDown && voltage.si() >= accepts.high().si()) {
    wrong.emplace_back("voltage: a step-down cannot reach its highest input");
  }
  return wrong;
}

SetPoint Charger::set_point() const {
  return {voltage.nominal(), current.nominal(), output_resistance.nominal(),
          Siemens::of_si(back_drain.si() / voltage.si())};
}

ChargePlan Charger::plan() const {
  ChargePlan at;
  at.voltage_v = voltage.si();
  at.current_a = current.si();
  at.ends = ends_at.si() > 0.0;
  at.ends_a = at.ends ? ends_at.si() : full_below.si();
  at.again_v =
      begins_again_below.si() > 0.0 ? begins_again_below.si() : again_below_voltage * voltage.si();
  at.gentle_below_v = gentle_below.si();
  at.gentle_a = gentle_current.si() > 0.0 ? gentle_current.si() : gentle_share * current.si();
  at.gives_up_s = gives_up_after.si();
  at.cold_k = waits_below.si();
  return at;
}

void Charger::install(Installer& installer) const {
  const PlacedBoard at = place(installer);
  installer.watch(
      "share of current limit", Ratio::dimension,
      [at, set_a = current.si()](const network::Network& net, const network::View& view) {
        return at.output_a(net.law(at.stage), view) / set_a;
      });
  installer.add_behaviour(
      std::make_unique<ChargerControl>(name, plan(), stage(), limits(), at, installer.air()));
}

}  // namespace tideover::part
