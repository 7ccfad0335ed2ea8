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
  reaction.mark(part_, guard_.react(reaction.time_s(), index));
  guard_.apply(reaction, law_, guard_.is_awake());
}

void ConverterControl::woken(network::Reaction& reaction) {
  guard_.woken();
  reaction.allow_long_step();
}

}  // namespace tideover::part
