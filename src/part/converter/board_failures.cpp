// How small boards with a power stage fail, whatever they are set to.
#include "part/converter/board.hpp"

namespace tideover::part {

void ConverterBoard::bind_readings() {
  for (MeasuredPoint& point : measured) {
    if (point.output.si() <= 0.0) put(point.output, set_point().voltage);
  }
}

std::vector<FailureMode> ConverterBoard::failure_modes_of_board() const {
  std::vector<FailureMode> modes{
      {"dead", "it gives nothing", {opened("out_plus")}},
      {"input shorted", "its input is a short circuit", {bridged("in_plus", "in_minus")}},
      {"output shorted", "its output is a short circuit", {bridged("out_plus", "out_minus")}},
      {"input reversed",
       "plus and minus of its input are swapped",
       {exchanged("in_plus", "in_minus")}},
      {"output reversed",
       "plus and minus of its output are swapped",
       {exchanged("out_plus", "out_minus")}}};
  if (isolated) {
    modes.push_back({"isolation lost",
                     "its input and its output have one minus",
                     {bridged("in_minus", "out_minus")}});
  } else {
    modes.push_back({"shorted through",
                     "its input goes straight through to its output",
                     {bridged("in_plus", "out_plus")}});
  }
  if (topology == Topology::StepUp) {
    modes.push_back({"stopped",
                     "it raises nothing: its input reaches its output less a diode's drop",
                     {},
                     altering<ConverterBoard>([](ConverterBoard& it) { it.is_stopped = true; })});
  }
  return modes;
}

}  // namespace tideover::part
