#include "part/converter/converter_control.hpp"

namespace tideover::part {

ConverterControl::ConverterControl(std::string part, const PowerStage& law,
                                   const BoardLimits& limits, const PlacedBoard& at)
    : part_(std::move(part)), law_(law), guard_(limits, at) {
  law_.running = 0.0;
}

void ConverterControl::conditions(const network::View& view, std::span<double> margins) const {
  guard_.conditions(view, margins);
}

void ConverterControl::react(network::Reaction& reaction, int index) {
  const bool was_awake = guard_.is_awake();
  const char* const words = guard_.react(reaction.time_s(), index);
  reaction.mark(part_, words, guard_.effect(was_awake));
  guard_.apply(reaction, law_, guard_.is_awake());
}

void ConverterControl::woken(network::Reaction& reaction) {
  guard_.woken();
  reaction.allow_long_step();
}

}  // namespace tideover::part
