#include <cmath>
#include <string>

#include <fmt/format.h>

#include "cell/steps.hpp"
#include "quantity/show.hpp"
#include "quantity/units.hpp"

namespace tideover::cell {
namespace {

/// Three digits, zeros kept: people compare lines below each other.
std::string digits(double number) {
  const double size = std::abs(number);
  if (size >= 99.95) return fmt::format("{:.0f}", number);
  return size >= 9.995 ? fmt::format("{:.1f}", number) : fmt::format("{:.2f}", number);
}

/// In the unit, or in thousandths of it where that reads better.
std::string amount(double number, const char* unit) {
  const bool is_milli = std::abs(number) < 0.1 && number != 0.0;
  return is_milli ? digits(1e3 * number) + " m" + unit : digits(number) + ' ' + unit;
}

std::string current(double current_a) {
  const double size_a = std::abs(current_a);
  return size_a < 0.9995 && size_a >= 0.1 ? fmt::format("{:.0f} mA", 1e3 * size_a)
                                          : amount(size_a, "A");
}

std::string duration(double lasts_s) {
  if (lasts_s < 60.0) return digits(lasts_s) + " s";
  return quantity::show(quantity::Second::of_si(lasts_s));
}

std::string voltages(double from_v, double to_v) {
  return fmt::format("{:.2f} V to {:.2f} V", from_v, to_v);
}

std::string charge(const Step& step) { return amount(std::abs(step.charge_as) / 3600.0, "Ah"); }

}  // namespace

std::string sentence(const Step& step) {
  const std::string deed = step.charge_as > 0.0 ? "Charged" : "Discharged";
  const std::string lasts = " for " + duration(step.lasts_s());
  const std::string ends = ", " + voltages(step.start_v, step.end_v);
  switch (step.kind) {
    case Step::Kind::Rest: return "Rested" + lasts + ends;
    case Step::Kind::ConstantCurrent:
      return deed + " at " + current(step.mean_current_a) + lasts + ", " + charge(step) + ends;
    case Step::Kind::ConstantPower:
      return deed + " at " + amount(std::abs(step.mean_power_w), "W") + lasts + ", " +
             charge(step) + ", " + amount(std::abs(step.energy_j) / 3600.0, "Wh") + ends;
    case Step::Kind::ConstantVoltage:
      return fmt::format("Held at {:.2f} V", step.mean_voltage_v) + lasts + ", " + charge(step) +
             ", " + current(step.start_current_a) + " falling to " + current(step.end_current_a);
    case Step::Kind::Pulse:
      return std::string(step.charge_as > 0.0 ? "Charging" : "Discharging") + " pulse of " +
             current(step.mean_current_a) + lasts + ", " + voltages(step.before_v, step.end_v);
    case Step::Kind::Varying: break;
  }
  return deed + " with varying current" + lasts + ", " + charge(step) + " in all" + ends;
}

}  // namespace tideover::cell
