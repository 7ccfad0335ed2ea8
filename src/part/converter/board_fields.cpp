#include "part/converter/board.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& MeasuredPoint::describe() {
  static const Description description =
      Describe<MeasuredPoint>("measured point", "One reading of a board's losses at the bench.")
          .value("input", &MeasuredPoint::input, {0.5_V, 60.0_V}, "voltage at its input")
          .required()
          .value("input_current", &MeasuredPoint::input_current, {0.0_A, 60.0_A},
                 "current into it; this or the efficiency")
          .value("efficiency", &MeasuredPoint::efficiency, {0.0_percent, 100.0_percent},
                 "output over input power; this or the input current")
          .value("output", &MeasuredPoint::output, {0.0_V, 60.0_V}, "voltage at its output",
                 "the voltage it is set to")
          .value("output_current", &MeasuredPoint::output_current, {0.0_A, 60.0_A},
                 "current out of it")
          .required()
          .done();
  return description;
}

namespace {

void describe_losses(Describe<ConverterBoard>& d) {
  d.value("idle_draw", &ConverterBoard::idle_draw, {0.0_A, 1.0_A},
          "input current while it is on with nothing on its output",
          "typical of small boards, from memory");
  d.value("linear_loss", &ConverterBoard::linear_loss, {0.0_V, 5.0_V},
          "loss that grows with its output current, in watts per ampere",
          "typical of small boards, from memory");
  d.value("square_loss", &ConverterBoard::square_loss, {0.0_Ohm, 5.0_Ohm},
          "loss that grows with the square of its output current",
          "typical of small boards, from memory");
  d.records("measured", &ConverterBoard::measured, 0, 5,
            "readings that correct its losses, one to five");
  d.value("off_draw", &ConverterBoard::off_draw, {0.0_A, 1.0_A},
          "input current while its lockout keeps it off", "typical, from memory");
}

void describe_limits(Describe<ConverterBoard>& d) {
  d.value("highest_duty", &ConverterBoard::highest_duty, {0.0_percent, 100.0_percent},
          "largest share of a period for which its switch is on",
          "95 % step-down, 85 % step-up and step-up-down, typical, from memory");
  d.value("path_resistance", &ConverterBoard::path_resistance, {1.0_mOhm, 10.0_Ohm},
          "switch and inductor in the way of its current at drop-out", "typical, from memory");
  d.value("drop", &ConverterBoard::drop, {0.0_V, 5.0_V},
          "voltage it needs between input and output beside that resistance",
          "1.5 V if linear, typical, from memory; else none");
  d.value("lockout", &ConverterBoard::lockout, {0.0_V, 60.0_V},
          "input voltage below which it turns itself off", "7 % below its lowest input, assumed");
  d.value("lockout_release", &ConverterBoard::lockout_release, {0.0_V, 60.0_V},
          "input voltage at which it comes back on", "its lowest input, assumed");
  d.value("restart_delay", &ConverterBoard::restart_delay, {0.0_s, 60.0_s},
          "how long it stays off after a lockout, whatever its input does", "typical, from memory");
  d.value("input_limit", &ConverterBoard::input_limit, {10.0_mA, 60.0_A},
          "most input current it converts", "typical switch limit of small boards, from memory");
  d.value("shutdown_at", &ConverterBoard::shutdown_at, {40.0_degC, 200.0_degC},
          "body temperature at which it turns itself off",
          "150 degC of its chip less 25 K to the board, typical, from memory");
  d.value("restart_at", &ConverterBoard::restart_at, {30.0_degC, 199.0_degC},
          "body temperature at which it comes back on", "20 K below, typical, from memory");
  d.value("diode_drop", &ConverterBoard::diode_drop, {0.0_V, 2.0_V},
          "drop of the diode in the way it cannot close: backwards in a step-down, forwards in a "
          "step-up",
          "0.7 V silicon body diode, 0.45 V Schottky in a step-up, typical, from memory");
  d.flag("blocks_back", &ConverterBoard::blocks_back,
         "nothing flows from its output to its input when the input is gone",
         "plain boards do not block, boards sold as chargers do; common practice, no source");
  d.flag("isolated", &ConverterBoard::isolated, "its output minus is not its input minus",
         "small boards share their minus, common practice");
}

void describe_capacitors(Describe<ConverterBoard>& d) {
  d.value("soft_start", &ConverterBoard::soft_start, {10.0_us, 1.0_s},
          "how long its output takes to rise", "typical, from memory");
  d.value("input_capacitance", &ConverterBoard::input_capacitance, {0.1_uF, 100.0_mF},
          "capacitance at its input", "typical of small boards, from memory");
  d.value("input_esr", &ConverterBoard::input_esr, {1.0_mOhm, 10.0_Ohm},
          "series resistance of that capacitance", "typical, from memory");
  d.value("output_capacitance", &ConverterBoard::output_capacitance, {0.1_uF, 100.0_mF},
          "capacitance at its output", "typical of small boards, from memory");
  d.value("output_esr", &ConverterBoard::output_esr, {1.0_mOhm, 10.0_Ohm},
          "series resistance of that capacitance", "typical, from memory");
}

}  // namespace

std::vector<Field> fields_of_converter_boards() {
  Describe<ConverterBoard> d("converter board", "a small board with a power stage");
  d.choice("topology", &ConverterBoard::topology,
           {"step-down", "step-up", "step-up-down", "linear"}, "how its output stands to its input",
           "the most usual, assumed");
  d.range("accepts", &ConverterBoard::accepts, {0.5_V, 60.0_V}, "input voltages at which it works",
          "typical of small step-down boards, from memory");
  describe_losses(d);
  describe_limits(d);
  describe_capacitors(d);
  d.with(fields_of_warm_parts("typical of a board of 20 mm by 40 mm in still air, from memory"));
  d.with(fields_of_every_part());
  return d.done().fields;
}

}  // namespace tideover::part
