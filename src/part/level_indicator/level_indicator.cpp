#include "part/level_indicator/level_indicator.hpp"

#include "part/installer.hpp"
#include "part/level_indicator/indicator_draw.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

const Description& IndicatorStep::describe() {
  static const Description description =
      Describe<IndicatorStep>("indicator step", "One lamp of a charge indicator.")
          .value("above", &IndicatorStep::above, {0.5_V, 60_V}, "voltage above which it is lit")
          .required()
          .value("draws", &IndicatorStep::draws, {0_A, 1_A}, "what it adds to the draw")
          .required()
          .done();
  return description;
}

const Description& LevelIndicator::describe() {
  static const Description description =
      Describe<LevelIndicator>("level-indicator",
                               "Shows how full the pack is, and drains it a little.")
          .value("draws", &LevelIndicator::draws, {0_A, 1_A}, "steady draw without its lamps",
                 "typical of small bar indicators, from memory")
          .value("resistive_below", &LevelIndicator::resistive_below, {0.5_V, 60_V},
                 "below this voltage its draw fades", "assumed")
          .records("steps", &LevelIndicator::steps, 0,
                   static_cast<std::size_t>(IndicatorDraw::most_steps),
                   "lamps that light one after the other as the voltage rises")
          .value("highest", &LevelIndicator::highest, {1_V, 60_V}, "highest voltage it stands",
                 "as far as this tool goes, assumed")
          .with(fields_of_every_part())
          .done();
  return description;
}

std::unique_ptr<Part> LevelIndicator::clone() const {
  return std::make_unique<LevelIndicator>(*this);
}

std::vector<Terminal> LevelIndicator::terminals() const {
  return {{"plus", Role::Plus, true, "supply and sense of " + name},
          {"minus", Role::Minus, true, "return of " + name}};
}

std::vector<FailureMode> LevelIndicator::failure_modes() const {
  return {{"dead", "it shows and draws nothing", {opened("plus")}},
          {"shorted", "its input is a short circuit", {bridged("plus", "minus")}},
          {"reversed", "it is wired the wrong way round", {exchanged("plus", "minus")}}};
}

std::vector<TestPoint> LevelIndicator::test_points() const {
  return {{"plus", "minus", "voltage it shows"}};
}

std::vector<std::string> LevelIndicator::contradictions() const {
  for (std::size_t k = 1; k < steps.size(); ++k) {
    if (steps[k].above.si() <= steps[k - 1].above.si()) {
      return {"steps: each lamp must light at a higher voltage than the one before it"};
    }
  }
  return {};
}

void LevelIndicator::install(Installer& installer) const {
  const auto plus = installer.node("plus");
  const auto minus = installer.node("minus");
  IndicatorDraw law{.current_a = draws.si(), .resistive_below_v = resistive_below.si()};
  for (const IndicatorStep& step : steps) {
    law.steps[static_cast<std::size_t>(law.step_count++)] = {step.above.si(), step.draws.si()};
  }
  const auto drawn = installer.add(law, {plus, minus}, "draw");
  installer.watch("current", Ampere::dimension,
                  [drawn, plus, minus](const network::Network& net, const network::View& view) {
                    return net.law(drawn).current_a_at(view.between(plus, minus));
                  });
  const std::size_t voltage = installer.watch_voltage("voltage", plus, minus);
  installer.rate("highest voltage", voltage, highest.si(), true, 0_s,
                 highest.given ? "as stated" : "assumed");
  installer.watch_polarity(voltage);
}

}  // namespace tideover::part
