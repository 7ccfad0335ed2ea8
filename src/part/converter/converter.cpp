#include "part/converter/converter.hpp"

#include "part/converter/converter_control.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Current limit over rating where nothing is stated: typical of small boards, from memory.
constexpr double limit_over_rated = 1.5;
/// How far an adjustment slips that was knocked or not locked: a fraction of a turn of a small
/// trimmer. Assumed.
constexpr double slipped = 0.1;
/// How near to the ends of its input a slipped adjustment comes.
constexpr Volt nearest_set = 0.1_V;

}  // namespace

const Description& Converter::describe() {
  static const Description description =
      Describe<Converter>("converter", "Makes one voltage into another.")
          .value("output", &Converter::output, {0.5_V, 60.0_V}, "voltage it is set to")
          .required()
          .value("rated", &Converter::rated, {1.0_mA, 30.0_A}, "output current for hours")
          .required()
          .value("limit", &Converter::limit, {0.0_A, 60.0_A}, "output current it does not exceed",
                 "half as much again as its rating, typical, from memory")
          .value("output_resistance", &Converter::output_resistance, {1.0_mOhm, 1.0_Ohm},
                 "how far its output falls per ampere", "typical, from memory")
          .value("output_leak", &Converter::output_leak, {100.0_Ohm, 100.0_MOhm},
                 "resistance across its output: its divider", "typical, from memory")
          .with(fields_of_converter_boards())
          .done();
  return description;
}

std::unique_ptr<Part> Converter::clone() const { return std::make_unique<Converter>(*this); }

std::vector<FailureMode> Converter::failure_modes() const {
  std::vector<FailureMode> modes = failure_modes_of_board();
  modes.push_back({"set too high",
                   "its adjustment has slipped a tenth upwards",
                   {},
                   altering<Converter>([](Converter& it) { it.shift_output(1.0 + slipped); })});
  modes.push_back({"set too low",
                   "its adjustment has slipped a tenth downwards",
                   {},
                   altering<Converter>([](Converter& it) { it.shift_output(1.0 - slipped); })});
  return modes;
}

void Converter::shift_output(double factor) {
  bind_readings();
  scale(output, factor);
  // A step-up passes on what it cannot lower, a step-down drops out: no setting is beyond that.
  if (topology == Topology::StepUp && output.si() <= accepts.low().si()) {
    put(output, accepts.low() + nearest_set);
  }
  if (topology == Topology::StepDown && output.si() >= accepts.high().si()) {
    put(output, accepts.high() - nearest_set);
  }
}

std::vector<std::string> Converter::contradictions() const {
  std::vector<std::string> wrong = contradictions_of_board();
  if (limit.si() > 0.0 && limit.si() < rated.si()) {
    wrong.emplace_back("limit: lies below the rated current");
  }
  if (topology == Topology::StepUp && output.si() <= accepts.low().si()) {
    wrong.emplace_back("output: a step-up cannot hold less than its lowest input");
  }
  if (topology == Topology::StepDown && output.si() >= accepts.high().si()) {
    wrong.emplace_back("output: a step-down cannot reach its highest input");
  }
  return wrong;
}

SetPoint Converter::set_point() const {
  const Ampere most = limit.si() > 0.0 ? limit.nominal() : limit_over_rated * rated.nominal();
  return {output.nominal(), most, output_resistance.nominal(),
          Siemens::of_si(1.0 / output_leak.si())};
}

void Converter::install(Installer& installer) const {
  const PlacedBoard at = place(installer);
  const std::size_t current = installer.watch(
      "share of rating", Ratio::dimension,
      [at, rated_a = rated.si()](const network::Network& net, const network::View& view) {
        return at.output_a(net.law(at.stage), view) / rated_a;
      });
  installer.rate("rated current", current, 1.0, true, 1.0_s, "as stated");
  installer.add_behaviour(std::make_unique<ConverterControl>(name, stage(), limits(), at));
}

}  // namespace tideover::part
