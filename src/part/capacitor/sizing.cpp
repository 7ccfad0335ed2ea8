#include "part/capacitor/sizing.hpp"

#include <algorithm>
#include <array>

#include "base/contract.hpp"

namespace tideover::part {

using namespace quantity;

Farad hold_up_capacitance(Watt power, Second time, Volt from, Volt to) {
  TIDEOVER_EXPECT(to.si() >= 0.0 && from > to, "it holds up from a voltage down to a lower one");
  return 2.0 * power * time / (from * from - to * to);
}

Second hold_up_time(Watt power, Farad capacitance, Volt from, Volt to) {
  TIDEOVER_EXPECT(to.si() >= 0.0 && from > to, "it holds up from a voltage down to a lower one");
  TIDEOVER_EXPECT(power.si() > 0.0, "what draws nothing is held up for ever");
  return capacitance * (from * from - to * to) / (2.0 * power);
}

Volt rated_voltage_above(Volt highest) {
  constexpr std::array ratings_v{6.3, 10.0, 16.0, 25.0, 35.0, 50.0, 63.0, 80.0, 100.0};
  constexpr double used_at_most = 0.8;
  TIDEOVER_EXPECT(highest.si() <= used_at_most * ratings_v.back(), "extra-low voltage");
  for (const double rated_v : ratings_v) {
    if (highest.si() <= used_at_most * rated_v) return Volt::of_si(rated_v);
  }
  return Volt::of_si(ratings_v.back());
}

Ohm usual_esr(Farad capacitance) {
  TIDEOVER_EXPECT(capacitance.si() > 0.0, "a capacitor");
  constexpr double time_constant_s = 50e-6;
  return Ohm::of_si(std::clamp(time_constant_s / capacitance.si(), 2e-3, 2.0));
}

}  // namespace tideover::part
