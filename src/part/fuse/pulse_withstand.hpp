/// How many pulses a fuse stands: a pulse's I2t against the melting I2t.
/// Source: a fuse maker's published guide, pages on pulse cycle withstand (read); pulses at least
/// 10 s apart, so that the element is cold again.
#pragma once

#include <array>
#include <optional>

#include "quantity/units.hpp"

namespace tideover::part {

enum class PulseShape {
  Rectangle,  ///< constant peak over the duration
  Ramp,       ///< from zero to peak, or from peak to zero
  HalfSine,
  Exponential,  ///< from peak, with the duration as time constant
};

/// Integral of current squared over one pulse.
[[nodiscard]] quantity::AmpereSquaredSecond pulse_integral(PulseShape shape, quantity::Ampere peak,
                                                           quantity::Second duration);

struct PulseWithstand {
  long pulses;
  quantity::Ratio share;  ///< of the nominal melting I2t that one pulse may have
};
/// Pulses rising.
[[nodiscard]] const std::array<PulseWithstand, 4>& pulse_withstand_table();
/// The share allowed for so many pulses: the next larger count of the table decides; nothing beyond
/// its end.
[[nodiscard]] std::optional<quantity::Ratio> allowed_pulse_share(long pulses);

}  // namespace tideover::part
