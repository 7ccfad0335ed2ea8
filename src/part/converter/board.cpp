#include "part/converter/board.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "part/converter/duty.hpp"
#include "quantity/show.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

constexpr double step_down_duty_limit = 0.95;
constexpr double step_up_duty_limit = 0.85;
constexpr double linear_drop_v = 1.5;
constexpr double silicon_drop_v = 0.7;
constexpr double schottky_drop_v = 0.45;
/// Lockout under its release where only the lowest input is known.
constexpr double lockout_below_release = 0.93;
/// No input comes near it.
constexpr double out_of_reach_v = 1e6;
/// A step-up-down's gain may lie this far below one and its corner formula still holds.
constexpr double lowest_step_up_down_gain = 0.2;

double or_else(double stated, double otherwise) { return stated > 0.0 ? stated : otherwise; }

}  // namespace

ConverterBoard::ConverterBoard() {
  body_resistance = Value<KelvinPerWatt>{40.0_K_per_W};
  body_heat = Value<JoulePerKelvin>{10.0_J_per_K};
}

std::vector<Terminal> ConverterBoard::terminals() const {
  return {{"in_plus", Role::Plus, true, "input plus of " + name},
          {"in_minus", Role::Minus, true, "input minus of " + name},
          {"out_plus", Role::Plus, true, "output plus of " + name},
          {"out_minus", Role::Minus, isolated, "output minus of " + name}};
}

std::vector<std::vector<std::string>> ConverterBoard::joined_inside() const {
  if (isolated) return {};
  return {{"in_minus", "out_minus"}};
}

std::vector<TestPoint> ConverterBoard::test_points() const {
  return {{"in_plus", "in_minus", "input voltage"}, {"out_plus", "out_minus", "output voltage"}};
}

std::vector<std::string> ConverterBoard::contradictions_of_board() const {
  std::vector<std::string> wrong;
  const BoardLimits at = limits();
  if (at.stops_v >= at.starts_v) {
    wrong.emplace_back("lockout: must lie below lockout_release");
  }
  if (at.cool_k >= at.hot_k) wrong.emplace_back("restart_at: must lie below shutdown_at");
  if (highest_duty.si() >= 1.0 &&
      (topology == Topology::StepUp || topology == Topology::StepUpDown)) {
    wrong.emplace_back("highest_duty: a step-up never reaches 100 %");
  }
  if (topology == Topology::Linear && !measured.empty()) {
    wrong.emplace_back("measured: a linear regulator has no loss to fit; state idle_draw and drop");
  }
  for (const MeasuredPoint& point : measured) {
    const bool has_current = point.input_current.si() > 0.0;
    const bool has_efficiency = point.efficiency.si() > 0.0;
    const double out_v = or_else(point.output.si(), set_point().voltage.si());
    if (has_current == has_efficiency) {
      wrong.emplace_back("measured: say either input_current or efficiency in each reading");
    } else if (has_efficiency && point.output_current.si() == 0.0) {
      wrong.emplace_back("measured: without output current only an input_current says anything");
    } else if (has_current &&
               point.input.si() * point.input_current.si() < out_v * point.output_current.si()) {
      wrong.emplace_back("measured: a reading gives out more power than it takes in");
    }
  }
  return wrong;
}

double ConverterBoard::duty_limit() const {
  const bool raises = topology == Topology::StepUp || topology == Topology::StepUpDown;
  if (topology == Topology::Linear) return 1.0;
  return or_else(highest_duty.si(), raises ? step_up_duty_limit : step_down_duty_limit);
}

LossFit ConverterBoard::losses() const {
  std::vector<LossReading> readings;
  for (const MeasuredPoint& point : measured) {
    if (topology == Topology::Linear) break;
    const Volt out = Volt::of_si(or_else(point.output.si(), set_point().voltage.si()));
    const Ampere through = point.output_current.nominal();
    Ampere in = point.input_current.nominal();
    if (point.efficiency.si() > 0.0) {
      in = Ampere::of_si(out.si() * through.si() / (point.efficiency.si() * point.input.si()));
    }
    if (in.si() > 0.0) readings.push_back({point.input.nominal(), in, out, through});
  }
  return fit_losses({idle_draw.nominal(), linear_loss.nominal(), square_loss.nominal()}, readings);
}

std::vector<std::string> ConverterBoard::remarks() const {
  const LossFit fit = losses();
  if (fit.moved_most == "none") return {};
  struct Term {
    std::string_view name;
    std::string key;
    std::string was;
    std::string is;
  };
  const std::array<Term, 3> terms{
      {{"idle", "idle_draw", show(idle_draw.nominal()), show(fit.losses.idle)},
       {"linear", "linear_loss", show(linear_loss.nominal()), show(fit.losses.linear)},
       {"square", "square_loss", show(square_loss.nominal()), show(fit.losses.square)}}};
  std::string most;
  std::string others;
  for (const Term& term : terms) {
    if (term.name == fit.moved_most) {
      most = fmt::format("the readings move {} most, from {} to {}", term.key, term.was, term.is);
    } else if (term.was != term.is) {
      others += fmt::format("; {} from {} to {}", term.key, term.was, term.is);
    }
  }
  return {"measured: " + most + others};
}

PowerStage ConverterBoard::stage() const {
  const SetPoint set = set_point();
  const Losses lost = losses().losses;
  const BoardLimits at = limits();
  PowerStage stage;
  stage.set_v = set.voltage.si();
  stage.output_ohm = set.output_resistance.si();
  stage.limit_a = set.current_limit.si();
  stage.input_limit_a = input_limit.si();
  stage.raises = topology == Topology::StepUp || topology == Topology::StepUpDown;
  stage.passes = topology == Topology::Linear;
  stage.highest_gain = duty_limit();
  if (topology == Topology::StepUp) stage.highest_gain = step_up_gain(duty_limit());
  if (topology == Topology::StepUpDown) stage.highest_gain = step_up_down_gain(duty_limit());
  stage.lowest_gain = topology == Topology::StepUp ? 1.0 : lowest_step_up_down_gain;
  stage.path_ohm = path_resistance.si();
  stage.drop_v = or_else(drop.si(), stage.passes ? linear_drop_v : 0.0);
  stage.draw_a = lost.idle.si();
  stage.linear_v = lost.linear.si();
  stage.square_ohm = lost.square.si();
  stage.floor_v = at.stops_v / 3.0;
  stage.rise_s = soft_start.si();
  stage.capacitor = {.capacitance_f = output_capacitance.si(),
                     .esr_ohm = output_esr.si(),
                     .leak_s = set.output_leak.si()};
  return stage;
}

BoardLimits ConverterBoard::limits() const {
  BoardLimits at;
  at.starts_v = or_else(lockout_release.si(), std::max(accepts.low().si(), lockout.si() * 1.05));
  at.stops_v = or_else(lockout.si(), lockout_below_release * at.starts_v);
  at.hot_k = shutdown_at.si();
  at.cool_k = restart_at.si();
  at.pause_s = restart_delay.si();
  at.idle_a = losses().losses.idle.si();
  at.off_a = off_draw.si();
  if (is_stopped) at.starts_v = out_of_reach_v;
  return at;
}

Volt ConverterBoard::lowest_input(Volt out, Ampere i) const {
  const PowerStage law = stage();
  // The reachable current rises with the input: halve the interval until it is a microvolt.
  double low = 0.0;
  double high = out.si() + law.drop_v + i.si() * law.path_ohm;
  while (law.reachable_a(high, out.si()) < i.si() && high < 1e3) high *= 2.0;
  while (high - low > 1e-6) {
    const double middle = 0.5 * (low + high);
    (law.reachable_a(middle, out.si()) < i.si() ? low : high) = middle;
  }
  return Volt::of_si(high);
}

double PlacedBoard::output_a(const PowerStage& law, const network::View& view) const {
  return law.output_a(view.between(in_plus, in_minus), view.state(capacitor), view.state(rise));
}

PlacedBoard ConverterBoard::place(Installer& installer) const {
  PlacedBoard at;
  at.in_plus = installer.node("in_plus");
  at.in_minus = installer.node("in_minus");
  at.out_plus = installer.node("out_plus");
  at.out_minus = installer.node("out_minus");
  at.body = installer.body();
  PowerStage law = stage();
  law.running = 0.0;
  law.draw_a = off_draw.si();
  at.stage =
      installer.add(law, {at.in_plus, at.in_minus, at.out_plus, at.out_minus, at.body},
                    {{{"soft start", 0.0, 1.0}, {"output capacitor", 0.0, 1.0}}}, "power stage");
  at.rise = installer.network().state(at.stage, 0);
  at.capacitor = installer.network().state(at.stage, 1);
  installer.add(Capacitance{.capacitance_f = input_capacitance.si(), .esr_ohm = input_esr.si()},
                {at.in_plus, at.in_minus}, {{{"input capacitor", 0.0, 1.0}}}, "input");
  place_reverse_path(installer, at);
  watch(installer, at);
  return at;
}

void ConverterBoard::place_reverse_path(Installer& installer, const PlacedBoard& at) const {
  const double path_s = 1.0 / std::max(path_resistance.si(), 1e-3);
  if (topology == Topology::StepUp) {
    installer.add(KneeLaw{.beyond_s = path_s, .knee_v = or_else(diode_drop.si(), schottky_drop_v)},
                  {at.in_plus, at.out_plus, at.body}, "inductor and rectifier");
  } else if (topology != Topology::StepUpDown && !blocks_back) {
    installer.add(KneeLaw{.beyond_s = path_s, .knee_v = or_else(diode_drop.si(), silicon_drop_v)},
                  {at.out_plus, at.in_plus, at.body}, "body diode");
  }
}

void ConverterBoard::watch(Installer& installer, const PlacedBoard& at) const {
  const std::size_t input = installer.watch_voltage("input voltage", at.in_plus, at.in_minus);
  installer.watch_voltage("output voltage", at.out_plus, at.out_minus);
  installer.watch("output current", Ampere::dimension,
                  [at](const network::Network& net, const network::View& view) {
                    return at.output_a(net.law(at.stage), view);
                  });
  const std::size_t warmth = installer.watch_temperature("body temperature", at.body);
  installer.rate("highest input voltage", input, accepts.high().si(), true, 0.0_s, "as stated");
  installer.watch_polarity(input);
  installer.rate("thermal shutdown", warmth, shutdown_at.si(), true, 0.0_s, "as stated");
}

}  // namespace tideover::part
