#include "part/adapter/adapter_control.hpp"

#include <algorithm>

namespace tideover::part {

using network::Reaction;
using network::Stimulus;
using network::View;

namespace {

enum Condition { store_is_empty, output_is_low, output_is_back };

/// An output that has been too low counts as back when it is this much above the threshold.
constexpr double back_above = 1.05;

}  // namespace

AdapterControl::AdapterControl(const Adapter& adapter, network::Handle<AdapterStage> stage,
                               network::Handle<Resistance> plug, const Places& places)
    : part_(adapter.name),
      stage_(stage),
      plug_(plug),
      places_(places),
      set_v_(adapter.output.si()),
      full_j_(adapter.stage().full_j),
      plug_s_(1.0 / std::max(adapter.own_lead().si(), least_resistance_ohm)),
      start_delay_s_(adapter.start_delay.si()),
      rise_s_(adapter.rise.si()),
      hiccups_(adapter.overload == Overload::Hiccup),
      hiccup_v_(adapter.hiccup_below.si() * adapter.output.si()),
      on_s_(adapter.hiccup_on.si()),
      off_s_(adapter.hiccup_off.si()) {}

void AdapterControl::conditions(const View& view, std::span<double> margins) const {
  std::ranges::fill(margins, network::never);
  const bool is_on = mode_ == Mode::Running || mode_ == Mode::Straining;
  if (is_on && !mains_) {
    margins[store_is_empty] = -view.state(places_.stored) / std::max(full_j_, 1e-3);
  }
  if (!hiccups_) return;
  const double v = view.between(places_.output, places_.minus);
  if (mode_ == Mode::Running) margins[output_is_low] = hiccup_v_ - v;
  if (mode_ == Mode::Straining) margins[output_is_back] = v - back_above * hiccup_v_;
}

void AdapterControl::react(Reaction& reaction, int index) {
  if (index == store_is_empty) {
    stop(reaction, Mode::Dark, network::no_wake);
    reaction.mark(part_, "has used up what it had stored: its output falls",
                  network::Effect::Stops);
  } else if (index == output_is_low) {
    mode_ = Mode::Straining;
    ends_s_ = reaction.time_s() + on_s_;
    reaction.allow_long_step();
  } else {
    mode_ = Mode::Running;
    ends_s_ = network::no_wake;
    reaction.allow_long_step();
  }
}

void AdapterControl::woken(Reaction& reaction) {
  if (mode_ == Mode::Straining) {
    stop(reaction, Mode::Pausing, off_s_);
    reaction.mark(part_, "is overloaded: pauses", network::Effect::Stops);
    return;
  }
  const bool tries_again = mode_ == Mode::Pausing;
  begin_rise(reaction);
  reaction.mark(part_, tries_again ? "tries again" : "starts: its output rises",
                network::Effect::Resumes);
}

void AdapterControl::stimulated(Reaction& reaction, const Stimulus& stimulus) {
  if (!stimulus.word.empty() && stimulus.word != part_) return;
  using What = Stimulus::What;
  if (stimulus.what == What::MainsLost && mains_) lose_mains(reaction);
  if (stimulus.what == What::MainsBack && !mains_) regain_mains(reaction);
  if (stimulus.what == What::Unplugged) set_plug(reaction, false);
  if (stimulus.what == What::PluggedIn) set_plug(reaction, true);
}

void AdapterControl::lose_mains(Reaction& reaction) {
  mains_ = false;
  reaction.network().law(stage_).mains = 0.0;
  // One that is not giving anything at this instant does not begin to without the mains.
  if (mode_ == Mode::Pausing || mode_ == Mode::Waking) stop(reaction, Mode::Dark, network::no_wake);
  reaction.mark(part_, "loses the mains", network::Effect::MainsGoes);
}

void AdapterControl::regain_mains(Reaction& reaction) {
  mains_ = true;
  reaction.network().law(stage_).mains = 1.0;
  if (mode_ == Mode::Dark) stop(reaction, Mode::Waking, start_delay_s_);
  reaction.mark(part_, "has the mains back", network::Effect::MainsReturns);
}

void AdapterControl::stop(Reaction& reaction, Mode mode, double lasts_s) {
  mode_ = mode;
  ends_s_ = reaction.time_s() + lasts_s;
  reaction.network().law(stage_).running = 0.0;
}

void AdapterControl::begin_rise(Reaction& reaction) {
  const double v = reaction.view().between(places_.output, places_.minus);
  reaction.set_state(places_.rise, std::clamp(v / set_v_, 0.0, 1.0));
  reaction.network().law(stage_).running = 1.0;
  mode_ = hiccups_ ? Mode::Straining : Mode::Running;
  ends_s_ = hiccups_ ? reaction.time_s() + rise_s_ + on_s_ : network::no_wake;
}

void AdapterControl::set_plug(Reaction& reaction, bool in) {
  double& conductance_s = reaction.network().law(plug_).conductance_s;
  if (in == (conductance_s == plug_s_)) return;
  conductance_s = in ? plug_s_ : open_conductance_s;
  reaction.mark(part_, in ? "is plugged in" : "is unplugged",
                in ? network::Effect::Resumes : network::Effect::Stops);
}

}  // namespace tideover::part
