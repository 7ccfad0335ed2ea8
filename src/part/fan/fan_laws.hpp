/// What one fan does at another speed.
#pragma once

#include <cmath>

namespace tideover::part {

/// All as ratios to the fan at full speed, noise as a difference.
struct FanAtSpeed {
  double flow;
  double pressure;
  double power;
  double noise_db;
};

/// Flow with the speed, pressure with its square, power with its cube, noise by 50 log10.
/// Source: the fan laws of any handbook of ventilation (from memory). `speed` > 0 is the ratio of
/// the speeds.
[[nodiscard]] inline FanAtSpeed fan_at_speed(double speed) {
  return {.flow = speed,
          .pressure = speed * speed,
          .power = speed * speed * speed,
          .noise_db = 50.0 * std::log10(speed)};
}

}  // namespace tideover::part
