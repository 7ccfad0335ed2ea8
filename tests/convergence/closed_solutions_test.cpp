// The stepper on small networks whose solution is known in closed form.
#include <array>
#include <cmath>
#include <vector>

#include <doctest/doctest.h>

#include "hybrid/stepper.hpp"
#include "network/network.hpp"
#include "part/capacitor_law.hpp"
#include "part/heat_path.hpp"
#include "part/load/load_draw.hpp"
#include "part/resistance.hpp"

namespace {

using namespace tideover;
using network::NodeId;
using network::reference_node;

/// A capacitor of `c_f` (ESR a thousandth of nothing) charged to `v0`, with a load across it.
struct Discharge {
  network::Network net;
  NodeId rail;
  network::Handle<part::Capacitance> capacitor;

  Discharge(double c_f, double v0, double esr_ohm) {
    rail = net.add_electrical_node("rail");
    capacitor = net.add(part::Capacitance{.capacitance_f = c_f, .esr_ohm = esr_ohm},
                        {rail, reference_node}, {{{"voltage", v0, v0}}}, "capacitor");
  }
};

/// Gives off the same heat whatever its temperature.
struct Heater {
  static constexpr int ports = 1;
  static constexpr int states = 0;
  double watts = 10.0;
  template <class Real>
  void equations(const Real*, const Real*, Real* flow, Real*) const {
    flow[0] = Real(-watts);
  }
  void ledger(const double*, const double*, network::Ledger&) const {}
};

/// Watches one potential fall below a threshold.
class Threshold final : public network::Behaviour {
 public:
  Threshold(NodeId node, double volts, double* when) : node_(node), volts_(volts), when_(when) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<Threshold>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "threshold"; }
  [[nodiscard]] int condition_count() const override { return 1; }
  void conditions(const network::View& view, std::span<double> margins) const override {
    margins[0] = done_ ? network::never : volts_ - view.potential(node_);
  }
  void react(network::Reaction& reaction, int) override {
    done_ = true;
    *when_ = reaction.time_s();
    reaction.mark("rail", "is below its limit");
  }

 private:
  NodeId node_;
  double volts_;
  double* when_;
  bool done_ = false;
};

double time_below(Discharge& discharge, double volts, double until_s, double tolerance = 1e-7) {
  double when = -1.0;
  discharge.net.add_behaviour(std::make_unique<Threshold>(discharge.rail, volts, &when));
  discharge.net.seal();
  hybrid::Stepper stepper(discharge.net, {.relative_tolerance = tolerance}, 0.0,
                          discharge.net.start());
  hybrid::Observer nobody;
  const auto outcome = stepper.advance(until_s, nobody);
  CHECK(outcome.ended == hybrid::Ended::AtTime);
  return when;
}

}  // namespace

TEST_CASE("RC decay: the voltage after two time constants and the instant of a threshold") {
  Discharge discharge(1e-3, 12.0, 1e-3);
  discharge.net.add(part::Resistance{1.0 / 999.999}, {discharge.rail, reference_node}, "load");
  // R C = 1 s with the ESR in series; the rail stands at v R / (R + ESR).
  const double rail0 = 12.0 * 999.999 / 1000.0;
  const double when = time_below(discharge, 6.0, 3.0);
  CHECK(when == doctest::Approx(std::log(rail0 / 6.0)).epsilon(1e-6));
}

TEST_CASE(
    "hold-up of 2200 uF from 12 V to 10.8 V at 12 W, 1 A and 12 ohm: "
    "t = C(V1^2 - V2^2)/2P and its kin (formula read in a public note, check rows 7.12, 7.13)") {
  const double esr = 1e-6;
  const auto run = [&](part::LoadDraw draw) {
    Discharge discharge(2200e-6, 12.0, esr);
    draw.resistive_below_v = 3.0;
    discharge.net.add(draw, {discharge.rail, reference_node}, "load");
    return time_below(discharge, 10.8, 5e-3);
  };
  const double power = run({.power_w = 12.0});
  const double current = run({.current_a = 1.0});
  const double resistance = run({.conductance_s = 1.0 / 12.0});
  CHECK(power == doctest::Approx(2.508e-3).epsilon(1e-3));
  CHECK(current == doctest::Approx(2.640e-3).epsilon(1e-3));
  CHECK(resistance == doctest::Approx(2.782e-3).epsilon(1e-3));
  CHECK(power < current);
  CHECK(current < resistance);
}

TEST_CASE(
    "hold-up: capacitance for 20 ms at 100 W and 200 W from 400 V to 300 V, and for 15 ms "
    "at 18 W from 12 V (check rows 7.10, 7.11, 7.14: read in public notes)") {
  const auto holds = [](double c_f, double watts, double v1, double v2) {
    Discharge discharge(c_f, v1, 1e-6);
    discharge.net.add(part::LoadDraw{.power_w = watts, .resistive_below_v = 0.3 * v1},
                      {discharge.rail, reference_node}, "load");
    return time_below(discharge, v2, 0.1);
  };
  CHECK(holds(57.14e-6, 100.0, 400.0, 300.0) == doctest::Approx(20e-3).epsilon(1e-3));
  CHECK(holds(114.29e-6, 200.0, 400.0, 300.0) == doctest::Approx(20e-3).epsilon(1e-3));
  CHECK(holds(19.74e-3, 18.0, 12.0, 10.8) == doctest::Approx(15e-3).epsilon(1e-3));
}

TEST_CASE(
    "share of a capacitor's energy used between 390 V and 300 V, and with 10 % droop "
    "(check row 7.15: read in a public note)") {
  const part::Capacitance capacitor{.capacitance_f = 1e-3};
  const auto share = [&](double high, double low) {
    return 1.0 - capacitor.stored(&low) / capacitor.stored(&high);
  };
  CHECK(share(390.0, 300.0) == doctest::Approx(0.408).epsilon(1e-3));
  CHECK(share(1.0, 0.9) == doctest::Approx(0.19).epsilon(1e-6));
}

TEST_CASE("an ESR of 50 mohm drops 0.1 V at 2 A before any charge has left (check row 7.16)") {
  Discharge discharge(1.0, 12.0, 0.05);
  discharge.net.add(part::LoadDraw{.current_a = 2.0, .resistive_below_v = 1.0},
                    {discharge.rail, reference_node}, "load");
  discharge.net.seal();
  hybrid::Stepper stepper(discharge.net, {}, 0.0, discharge.net.start());
  CHECK(stepper.y()[0] == doctest::Approx(11.9).epsilon(1e-9));
}

TEST_CASE(
    "first-order heating, 10 W, 3 K/W, 600 J/K: 8.50, 18.96, 25.94 K after 10, 30, 60 min "
    "(check row 9.1: closed solution)") {
  network::Network net;
  const NodeId body = net.add_thermal_node("body", 600.0, 293.15);
  const NodeId air = net.add_thermal_node("air", 1e12, 293.15);
  net.add(Heater{}, {body}, "heater");
  net.add(part::HeatPath{1.0 / 3.0}, {body, air}, "path");
  net.seal();
  hybrid::Stepper stepper(net, {.relative_tolerance = 1e-8}, 0.0, net.start());
  hybrid::Observer nobody;
  const std::array<std::pair<double, double>, 3> expected{
      {{600.0, 8.50}, {1800.0, 18.96}, {3600.0, 25.94}}};
  for (const auto& [time_s, rise_k] : expected) {
    CHECK(stepper.advance(time_s, nobody).ended == hybrid::Ended::AtTime);
    CHECK(std::abs(stepper.y()[0] - 293.15 - rise_k) < 0.01);
  }
}

TEST_CASE(
    "a lead too thin for its load: the rail collapses to the load's resistance, and the run "
    "goes on") {
  // 12 V through 2 ohm gives at most V^2/4R = 18 W; 30 W is asked for.
  Discharge discharge(1e-3, 12.0, 0.01);
  const NodeId source = discharge.net.add_electrical_node("source");
  discharge.net.add(part::Resistance{0.5}, {source, discharge.rail}, "lead");
  discharge.net.add(part::Capacitance{.capacitance_f = 1e6, .esr_ohm = 1e-4},
                    {source, reference_node}, {{{"voltage", 12.0, 12.0}}}, "stiff source");
  discharge.net.add(part::LoadDraw{.power_w = 30.0, .resistive_below_v = 6.0},
                    {discharge.rail, reference_node}, "load");
  const double when = time_below(discharge, 5.0, 10.0);
  CHECK(when > 0.0);
  CHECK(when < 0.05);
}
