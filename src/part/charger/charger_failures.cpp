// How a charger fails beside what every small board does.
#include "part/charger/charger.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// What two cheap meters differ by, and so what a careful adjustment may be off: common practice,
/// no source. Of 4.20 V a cell it makes 4.24 V.
constexpr double misread = 0.01;
/// How far an adjustment slips that was knocked or not locked: a fraction of a turn of a small
/// trimmer. Assumed.
constexpr double slipped = 0.1;
/// The current trimmer is coarser, and nobody looks at it again: twice or half. Assumed.
constexpr double coarse = 2.0;
/// How near to the top of its input a slipped adjustment comes.
constexpr Volt nearest_set = 0.1_V;
/// Where a charger without a sensor stands.
constexpr Temperature no_sensor = Temperature::of_celsius(-60.0);

std::function<void(Part&)> voltage_times(double factor) {
  return altering<Charger>([factor](Charger& charger) { charger.shift_voltage(factor); });
}
std::function<void(Part&)> current_times(double factor) {
  return altering<Charger>([factor](Charger& charger) { charger.shift_current(factor); });
}

/// A charger that never turns itself off still counts as full where it used to end.
void never_end(Charger& charger) {
  charger.full_below = charger.ends_at;
  charger.ends_at = {};
}

}  // namespace

void Charger::shift_voltage(double factor) {
  bind_readings();
  scale(voltage, factor);
  if (topology == Topology::StepDown && voltage.si() >= accepts.high().si()) {
    put(voltage, accepts.high() - nearest_set);
  }
  scale(begins_again_below, factor);
  scale(gentle_below, factor);
}

void Charger::shift_current(double factor) {
  scale(current, factor);
  scale(ends_at, factor);
  scale(full_below, factor);
  scale(gentle_current, factor);
}

std::vector<FailureMode> Charger::failure_modes() const {
  std::vector<FailureMode> modes = failure_modes_of_board();
  modes.push_back({"voltage one percent high",
                   "it was adjusted by a meter that reads low",
                   {},
                   voltage_times(1.0 + misread)});
  modes.push_back({"voltage a tenth high",
                   "its voltage adjustment has slipped upwards",
                   {},
                   voltage_times(1.0 + slipped)});
  modes.push_back({"voltage a tenth low",
                   "its voltage adjustment has slipped downwards: the pack never gets full",
                   {},
                   voltage_times(1.0 - slipped)});
  modes.push_back({"current at twice",
                   "its current adjustment has slipped to twice its setting",
                   {},
                   current_times(coarse)});
  modes.push_back({"current at half",
                   "its current adjustment has slipped to half its setting",
                   {},
                   current_times(1.0 / coarse)});
  if (ends_at.si() > 0.0) {
    modes.push_back(
        {"never ends", "it holds its voltage for ever", {}, altering<Charger>(never_end)});
  }
  if (waits_below.si() > no_sensor.si()) {
    modes.push_back({"charges in the cold",
                     "its temperature sensor has failed",
                     {},
                     altering<Charger>([](Charger& it) { put(it.waits_below, no_sensor); })});
  }
  return modes;
}

}  // namespace tideover::part
