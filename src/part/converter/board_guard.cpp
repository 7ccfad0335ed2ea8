#include "part/converter/board_guard.hpp"

#include <algorithm>

namespace tideover::part {

namespace {

enum Condition { input_is_low, input_is_enough, body_is_hot, body_has_cooled };

}  // namespace

void BoardGuard::conditions(const network::View& view, std::span<double> margins) const {
  std::fill_n(margins.begin(), condition_count, network::never);
  const double v = view.between(at_.in_plus, at_.in_minus);
  const double t = view.potential(at_.body);
  if (mode_ == Mode::Awake) {
    margins[input_is_low] = limits_.stops_v - v;
    margins[body_is_hot] = t - limits_.hot_k;
  }
  if (mode_ == Mode::Starved) margins[input_is_enough] = v - limits_.starts_v;
  if (mode_ == Mode::Hot) margins[body_has_cooled] = limits_.cool_k - t;
}

const char* BoardGuard::react(double time_s, int index) {
  switch (index) {
    case input_is_low:
      mode_ = limits_.pause_s > 0.0 ? Mode::Pausing : Mode::Starved;
      pause_ends_s_ = limits_.pause_s > 0.0 ? time_s + limits_.pause_s : network::no_wake;
      return "turns off: too little input";
    case input_is_enough: mode_ = Mode::Awake; return "comes on";
    case body_is_hot: mode_ = Mode::Hot; return "turns off: too hot";
    default: mode_ = Mode::Starved; return "has cooled down";
  }
}

void BoardGuard::woken() {
  mode_ = Mode::Starved;
  pause_ends_s_ = network::no_wake;
}

void BoardGuard::apply(network::Reaction& reaction, PowerStage& law, bool converts) const {
  const bool begins = converts && law.running == 0.0;
  law.running = converts ? 1.0 : 0.0;
  law.draw_a = is_awake() ? limits_.idle_a : limits_.off_a;
  if (begins) reaction.set_state(at_.rise, 0.0);
  reaction.network().law(at_.stage) = law;
}

}  // namespace tideover::part
