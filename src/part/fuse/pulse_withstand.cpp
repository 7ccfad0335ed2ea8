#include "part/fuse/pulse_withstand.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

AmpereSquaredSecond pulse_integral(PulseShape shape, Ampere peak, Second duration) {
  const AmpereSquaredSecond whole = peak * peak * duration;
  switch (shape) {
    case PulseShape::Rectangle: return whole;
    case PulseShape::Ramp: return whole / 3.0;
    case PulseShape::HalfSine:
    case PulseShape::Exponential: return whole / 2.0;
  }
  return whole;
}

const std::array<PulseWithstand, 4>& pulse_withstand_table() {
  static const std::array<PulseWithstand, 4> table{
      PulseWithstand{100, 48_percent}, PulseWithstand{1'000, 38_percent},
      PulseWithstand{10'000, 29_percent}, PulseWithstand{100'000, 22_percent}};
  return table;
}

std::optional<Ratio> allowed_pulse_share(long pulses) {
  for (const PulseWithstand& row : pulse_withstand_table()) {
    if (pulses <= row.pulses) return row.share;
  }
  return std::nullopt;
}

}  // namespace tideover::part
