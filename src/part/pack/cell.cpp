#include "part/pack/cell.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& RestPoint::describe() {
  static const Description description =
      Describe<RestPoint>("rest point", "Rest voltage of a cell at one state of charge.")
          .value("soc", &RestPoint::soc, {0.0_percent, 100.0_percent}, "share of the charge left")
          .required()
          .value("voltage", &RestPoint::voltage, {0.1_V, 30.0_V}, "voltage after a long rest")
          .required()
          .done();
  return description;
}

const Description& ResistancePoint::describe() {
  static const Description description =
      Describe<ResistancePoint>("resistance point", "Series resistance at one state of charge.")
          .value("soc", &ResistancePoint::soc, {0.0_percent, 100.0_percent},
                 "share of the charge left")
          .required()
          .value("resistance", &ResistancePoint::resistance, {0.01_mOhm, 10.0_Ohm},
                 "series resistance at 25 degC, as a jump of current shows it")
          .required()
          .done();
  return description;
}

namespace {

void describe_charge(Describe<Cell>& d) {
  d.choice("chemistry", &Cell::chemistry, {"nmc", "lfp", "lead-acid"},
           "nmc stands for the nickel-rich lithium cells")
      .value("capacity", &Cell::capacity, {0.01_Ah, 1000.0_Ah},
             "charge from full to empty, taken out over rated_hours")
      .required()
      .value("rated_hours", &Cell::rated_hours, {0.1_h, 200.0_h},
             "over how many hours the capacity is stated",
             "IEC 61960-3 rates lithium cells at the 5 h rate, from memory")
      .value("rate_exponent", &Cell::rate_exponent, {1.0_ratio, 1.5_ratio},
             "Peukert exponent; 1 where resistance alone explains what a fast discharge loses",
             "lithium: 1; lead-acid 1.1 to 1.3, from memory")
      .records("rest", &Cell::rest, 2, 400, "rest voltage from 0 % to 100 % of charge")
      .required()
      .value("branch_gap", &Cell::branch_gap, {0.0_mV, 500.0_mV},
             "rest voltage after charging less that after discharging, at the same charge",
             "nickel-rich cells, from memory")
      .value("branch_turn", &Cell::branch_turn, {0.1_percent, 50.0_percent},
             "share of the capacity over which the rest voltage goes over to the other branch",
             "assumed")
      .value("coulombic_efficiency", &Cell::coulombic_efficiency, {50.0_percent, 100.0_percent},
             "share of the charge put in that can be taken out",
             "lithium: 99 % and more, from memory")
      .value("self_discharge", &Cell::self_discharge, {0.0_percent, 50.0_percent},
             "share of its charge that it loses in 30 days at 25 degC",
             "2 % a month is the usual figure for lithium cells, common practice, no source")
      .value("self_discharge_doubles", &Cell::self_discharge_doubles, {3.0_K, 50.0_K},
             "warming that doubles the self-discharge", "halves per 10 K, a lead-acid handbook");
}

void describe_resistance(Describe<Cell>& d) {
  d.records("resistance", &Cell::resistance, 1, 100, "series resistance against charge")
      .required()
      .value("cold_factor", &Cell::cold_factor, {1.0_ratio, 20.0_ratio},
             "all resistances at 0 degC over those at 25 degC", "pulses on one 2.9 Ah cell")
      .value("quick_resistance", &Cell::quick_resistance, {0.01_mOhm, 10.0_Ohm},
             "further resistance that shows within seconds, at half charge and 25 degC",
             "pulses on one 2.9 Ah cell")
      .value("quick_time", &Cell::quick_time, {0.01_s, 600.0_s}, "its time constant",
             "pulses on one 2.9 Ah cell")
      .value("slow_resistance", &Cell::slow_resistance, {0.0_Ohm, 10.0_Ohm},
             "further resistance that shows within minutes; 0 where it is not known", "left out")
      .value("slow_time", &Cell::slow_time, {1.0_s, 1.0_d}, "its time constant",
             "pulses on one 2.9 Ah cell")
      .value("heat_capacity", &Cell::heat_capacity, {1.0_J_per_K, 100000.0_J_per_K},
             "heat one cell takes up per kelvin",
             "about 1 kJ/(kg K) and 45 g for an 18650 cell, from memory")
      .value("to_air", &Cell::to_air, {0.1_K_per_W, 500.0_K_per_W},
             "temperature rise of one cell that stands alone, per watt",
             "10 W/(m2 K) over the surface of an 18650 cell, from memory");
}

void describe_limits(Describe<Cell>& d) {
  d.value("charge_to", &Cell::charge_to, {0.5_V, 40.0_V}, "highest charge voltage")
      .required()
      .value("discharge_to", &Cell::discharge_to, {0.3_V, 40.0_V}, "lowest discharge voltage")
      .required()
      .value("charge_current", &Cell::charge_current, {1.0_mA, 1000.0_A}, "highest charge current")
      .required()
      .value("discharge_current", &Cell::discharge_current, {1.0_mA, 5000.0_A},
             "highest continuous discharge current")
      .required()
      .range("charge_window", &Cell::charge_window,
             {Temperature::of_celsius(-40.0), Temperature::of_celsius(90.0)},
             "temperatures at which it may be charged", "0 to 45 degC is usual, from memory")
      .range("discharge_window", &Cell::discharge_window,
             {Temperature::of_celsius(-60.0), Temperature::of_celsius(100.0)},
             "temperatures at which it may be discharged", "-20 to 60 degC is usual, from memory")
      .value("end_of_life_capacity", &Cell::end_of_life_capacity, {20.0_percent, 100.0_percent},
             "share of the capacity that is left when the cell is called worn out",
             "80 %, common practice, no source")
      .value("end_of_life_resistance", &Cell::end_of_life_resistance, {1.0_ratio, 10.0_ratio},
             "resistances of the worn-out cell over those of the new one",
             "one 2.9 Ah cell rose to 1.4 times at 86 % of its capacity, measured")
      .value("life", &Cell::life, {Second::of_si(0.0), Second::of_si(50.0 * 365.25 * 86400.0)},
             "how long it lives until it is worn out, kept charged and warm as in this build",
             "not known, so that a life asked for cannot be judged");
}

}  // namespace

const Description& Cell::describe() {
  static const Description description = [] {
    Describe<Cell> d("cell", "One battery cell, or one block of cells in a common case.");
    describe_charge(d);
    describe_resistance(d);
    describe_limits(d);
    return d.done();
  }();
  return description;
}

std::vector<std::string> Cell::contradictions() const {
  std::vector<std::string> wrong;
  for (std::size_t k = 1; k < rest.size(); ++k) {
    if (rest[k].soc.si() > rest[k - 1].soc.si() &&
        rest[k].voltage.si() > rest[k - 1].voltage.si()) {
      continue;
    }
    wrong.push_back("rest: charge and voltage must rise from point to point");
    break;
  }
  if (rest.size() < 2 || rest.front().soc.si() > 0.0 || rest.back().soc.si() < 1.0) {
    wrong.push_back("rest: must go from 0 % to 100 %");
  }
  for (std::size_t k = 1; k < resistance.size(); ++k) {
    if (resistance[k].soc.si() > resistance[k - 1].soc.si()) continue;
    wrong.push_back("resistance: charge must rise from point to point");
    break;
  }
  if (discharge_to.si() >= charge_to.si()) {
    wrong.push_back("discharge_to: must lie below charge_to");
  }
  if (!rest.empty() && charge_to.si() <= rest.front().voltage.si()) {
    wrong.push_back("charge_to: must lie above the rest voltage of the empty cell");
  }
  return wrong;
}

}  // namespace tideover::part
