#include "part/ideal_diode/gate_control.hpp"

namespace tideover::part {

using network::Reaction;
using network::View;

namespace {

constexpr double hysteresis = 0.9;

}  // namespace

GateControl::GateControl(std::string part, network::Handle<KneeLaw> channel, network::NodeId anode,
                         network::NodeId cathode, double on_ohm, double forward_v, double reverse_a,
                         GateTimes times)
    : part_(std::move(part)),
      channel_(channel),
      anode_(anode),
      cathode_(cathode),
      on_ohm_(on_ohm),
      forward_v_(forward_v),
      reverse_a_(reverse_a),
      times_(times) {}

void GateControl::conditions(const View& view, std::span<double> margins) const {
  const double v = view.between(anode_, cathode_);
  margins[0] = network::never;
  margins[1] = network::never;
  switch (mode_) {
    case Mode::Off: margins[0] = v - forward_v_; break;
    case Mode::Starting: margins[1] = hysteresis * forward_v_ - v; break;
    case Mode::Regulating:
      // Regulation needs no full gate while the channel's current stays below Vf/Ron.
      margins[0] = on_ohm_ * regulating().current(v) - forward_v_;
      margins[1] = -reverse_a_ * on_ohm_ - v;
      break;
    case Mode::Full: margins[1] = hysteresis * forward_v_ - v; break;
    case Mode::Emptying: margins[0] = v - forward_v_; break;
  }
}

KneeLaw GateControl::regulating() const { return regulating_channel(forward_v_, on_ohm_); }

void GateControl::react(Reaction& reaction, int index) {
  switch (mode_) {
    case Mode::Off: enter(reaction, Mode::Starting, times_.turn_on_s); break;
    case Mode::Starting: enter(reaction, Mode::Off); break;
    case Mode::Regulating: enter(reaction, index == 0 ? Mode::Full : Mode::Off); break;
    case Mode::Full: enter(reaction, Mode::Emptying, times_.turn_off_s); break;
    case Mode::Emptying: enter(reaction, Mode::Full); break;
  }
}

void GateControl::woken(Reaction& reaction) {
  if (mode_ == Mode::Starting) {
    enter(reaction, Mode::Regulating);
    return;
  }
  const bool is_reversed = reaction.view().between(anode_, cathode_) < -reverse_a_ * on_ohm_;
  if (is_reversed) reaction.mark(part_, "blocks current that has turned back");
  enter(reaction, is_reversed ? Mode::Off : Mode::Regulating);
}

void GateControl::enter(Reaction& reaction, Mode mode, double delay_s) {
  mode_ = mode;
  wake_s_ = delay_s == network::no_wake ? network::no_wake : reaction.time_s() + delay_s;
  KneeLaw& channel = reaction.network().law(channel_);
  channel = mode == Mode::Regulating ? regulating() : blocking_channel(forward_v_);
  const bool is_full = mode == Mode::Full || mode == Mode::Emptying;
  if (is_full) channel.conductance_s = 1.0 / on_ohm_;
}

}  // namespace tideover::part
