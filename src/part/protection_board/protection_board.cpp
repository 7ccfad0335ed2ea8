#include "part/protection_board/protection_board.hpp"

#include <fmt/format.h>

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

using Board = ProtectionBoard;
constexpr const char* typical = "typical of boards for nickel-rich cells, from memory";

void describe_voltages(Describe<Board>& d) {
  d.value("over_voltage", &Board::over_voltage, {1.0_V, 20.0_V}, "a group above it cuts the charge",
          typical)
      .value("over_voltage_delay", &Board::over_voltage_delay, {0.0_s, 60.0_s}, "for how long",
             typical)
      .value("over_voltage_release", &Board::over_voltage_release, {1.0_V, 20.0_V},
             "all groups below it let charge in again", typical)
      .choice("over_voltage_released_by", &Board::over_voltage_released_by,
              {"voltage", "voltage-or-load"},
              "whether a load that draws through the body diode is enough too", typical)
      .value("under_voltage", &Board::under_voltage, {0.5_V, 20.0_V},
             "a group below it cuts the discharge", typical)
      .value("under_voltage_delay", &Board::under_voltage_delay, {0.0_s, 60.0_s}, "for how long",
             typical)
      .value("under_voltage_release", &Board::under_voltage_release, {0.5_V, 20.0_V},
             "all groups above it may discharge again", typical)
      .choice("under_voltage_released_by", &Board::under_voltage_released_by,
              {"voltage", "charger", "load-removal"},
              "what must happen for that: the voltage alone, a charger, or the load taken off",
              typical);
}

void describe_currents(Describe<Board>& d) {
  d.value("discharge_over_current", &Board::discharge_over_current, {0.01_A, 1000.0_A},
          "discharge current that cuts", typical)
      .value("discharge_over_current_delay", &Board::discharge_over_current_delay, {0.0_s, 60.0_s},
             "for how long", typical)
      .value("charge_over_current", &Board::charge_over_current, {0.01_A, 1000.0_A},
             "charge current that cuts", typical)
      .value("charge_over_current_delay", &Board::charge_over_current_delay, {0.0_s, 60.0_s},
             "for how long", typical)
      .value("short_circuit", &Board::short_circuit, {0.01_A, 10000.0_A},
             "discharge current taken for a short circuit", typical)
      .value("short_circuit_delay", &Board::short_circuit_delay, {0.0_s, 1.0_s}, "for how long",
             typical)
      .choice("fault_released_by", &Board::fault_released_by,
              {"load-removal", "charger", "waiting"},
              "what clears an over-current or a short circuit", typical)
      .value("fault_wait", &Board::fault_wait, {0.001_s, 3600.0_s},
             "how long it waits where waiting clears it", typical)
      .value("release_delay", &Board::release_delay, {0.0_s, 60.0_s},
             "how long any release must hold", typical)
      .value("path_resistance", &Board::path_resistance, {0.1_mOhm, 1.0_Ohm},
             "from b_minus to p_minus, MOSFETs and shunt", typical)
      .value("body_diode", &Board::body_diode, {0.3_V, 1.5_V},
             "drop of a MOSFET that is off, the other way, at 1 A", "silicon, from memory")
      .value("load_sense", &Board::load_sense, {1.0_kOhm, 100.0_MOhm},
             "resistance by which it feels whether a load is there while discharge is cut", typical)
      .value("drain", &Board::drain, {0.0_A, 0.1_A}, "what it takes from the pack itself", typical)
      .value("drain_when_cut", &Board::drain_when_cut, {0.0_A, 0.1_A},
             "the same while discharge is cut", typical)
      .value("rated", &Board::rated, {0.01_A, 1000.0_A}, "continuous current", typical);
}

void describe_rest(Describe<Board>& d) {
  d.choice("balances", &Board::balances, {"never", "always", "while-charging"},
           "when it bleeds groups that are fuller than others", "many boards do not; assumed")
      .value("balance_start", &Board::balance_start, {0.5_V, 20.0_V},
             "voltage above which a group is bled", typical)
      .value("balance_hysteresis", &Board::balance_hysteresis, {1.0_mV, 1.0_V},
             "how far below the start it stops", typical)
      .value("balance_resistance", &Board::balance_resistance, {1.0_Ohm, 100.0_kOhm},
             "bleed resistor of a group", typical)
      .flag("has_temperature_sensor", &Board::has_temperature_sensor,
            "whether it watches a temperature", "many boards do not; assumed")
      .part_name("sensor_on", &Board::sensor_on,
                 "the part its temperature sensor sits on; the board itself where nothing is said")
      .range("charge_window", &Board::charge_window, {Temperature::of_celsius(-40.0), 120.0_degC},
             "temperatures at which it allows charging", typical)
      .range("discharge_window", &Board::discharge_window,
             {Temperature::of_celsius(-60.0), 150.0_degC},
             "temperatures at which it allows discharging", typical)
      .value("temperature_hysteresis", &Board::temperature_hysteresis, {0.5_K, 30.0_K},
             "how far inside its window again it must be", typical)
      .value("temperature_delay", &Board::temperature_delay, {0.0_s, 600.0_s}, "for how long",
             typical)
      .value("highest_temperature", &Board::highest_temperature, {40.0_degC, 175.0_degC},
             "of the board itself", "common for assembled boards, from memory");
}

}  // namespace

const Description& ProtectionBoard::describe() {
  static const Description description = [] {
    Describe<Board> d("protection-board", "Keeps every group of a pack within its limits.");
    d.count("series", &Board::series, 1, 20, "groups it watches", "assumed").required();
    describe_voltages(d);
    describe_currents(d);
    describe_rest(d);
    d.with(fields_of_warm_parts("a board of 20 cm2, from memory")).with(fields_of_every_part());
    return d.done();
  }();
  return description;
}

std::unique_ptr<Part> ProtectionBoard::clone() const {
  return std::make_unique<ProtectionBoard>(*this);
}

std::vector<Terminal> ProtectionBoard::terminals() const {
  std::vector<Terminal> all{{"b_minus", Role::Minus, true, "to the pack's minus"},
                            {"p_minus", Role::Minus, true, "minus of the supply"},
                            {"b_plus", Role::Plus, true, "to the pack's plus, for measuring"}};
  for (int k = 1; k < series; ++k) {
    all.push_back({fmt::format("tap{}", k), Role::Tap, true,
                   fmt::format("to the pack between group {} and group {}", k, k + 1)});
  }
  return all;
}

std::vector<TestPoint> ProtectionBoard::test_points() const {
  return {{"b_plus", "b_minus", "voltage of the cells"},
          {"b_plus", "p_minus", "voltage the supply sees"},
          {"p_minus", "b_minus", "drop of the board; near nothing while it conducts"}};
}

std::vector<std::string> ProtectionBoard::contradictions() const {
  std::vector<std::string> wrong;
  if (over_voltage_release.si() >= over_voltage.si()) {
    wrong.push_back("over_voltage_release: must lie below over_voltage");
  }
  if (under_voltage_release.si() <= under_voltage.si()) {
    wrong.push_back("under_voltage_release: must lie above under_voltage");
  }
  if (under_voltage_release.si() >= over_voltage_release.si()) {
    wrong.push_back("under_voltage_release: must lie below over_voltage_release");
  }
  if (short_circuit.si() <= discharge_over_current.si()) {
    wrong.push_back("short_circuit: must lie above discharge_over_current");
  }
  if (balances != Balances::Never && balance_start.si() >= over_voltage.si()) {
    wrong.push_back("balance_start: must lie below over_voltage, or no group is ever balanced");
  }
  const double widest = 2.0 * temperature_hysteresis.si();
  if (has_temperature_sensor && (charge_window.high() - charge_window.low()).si() <= widest) {
    wrong.push_back("charge_window: must be wider than twice temperature_hysteresis");
  }
  return wrong;
}

}  // namespace tideover::part
