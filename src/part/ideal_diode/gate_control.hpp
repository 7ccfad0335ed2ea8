/// The controller of an ideal diode.
///
/// Off: only the body diode conducts. When the forward voltage has stood above the regulated drop
/// for `turn_on` it regulates; when the current is more than regulation needs it switches fully on.
/// A full gate takes `turn_off` to empty: until then the channel conducts backwards as well as
/// forwards. A regulating gate is nearly empty and lets go at once.
#pragma once

#include <memory>
#include <string>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/knee_law.hpp"

namespace tideover::part {

struct GateTimes {
  double turn_on_s = 100e-6;
  double turn_off_s = 1e-6;
};

/// Blocking, the channel lets nothing through; fully on, its conductance is 1/Ron both ways, so
/// that the drop is Vf or Ron i, whichever is larger. Held at the drop Vf by its controller, it
/// conducts with a multiple of 1/Ron past Vf and with a thousandth of it below: that lets back a
/// thousandth of the reverse current at which it is blocked, and two in a row with nothing between
/// them share what little flows.
[[nodiscard]] constexpr KneeLaw blocking_channel(double forward_v) {
  return {.knee_v = forward_v, .corner_v = 0.25 * forward_v};
}
[[nodiscard]] constexpr KneeLaw regulating_channel(double forward_v, double on_ohm) {
  constexpr double stiffness = 20.0;  // its drop rises by a twentieth of Ron i
  constexpr double below = 1e-3;
  KneeLaw law = blocking_channel(forward_v);
  law.conductance_s = below / on_ohm;
  law.beyond_s = stiffness / on_ohm;
  return law;
}

class GateControl final : public network::Behaviour {
 public:
  /// `reverse_a`: reverse current at which it calls the channel reversed.
  GateControl(std::string part, network::Handle<KneeLaw> channel, network::NodeId anode,
              network::NodeId cathode, double on_ohm, double forward_v, double reverse_a,
              GateTimes times);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<GateControl>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 2; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override { return wake_s_; }
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;

 private:
  /// Starting: off, the turn-on delay runs. Emptying: still fully on, the turn-off delay runs.
  enum class Mode { Off, Starting, Regulating, Full, Emptying };

  /// The channel as it is while it regulates.
  [[nodiscard]] KneeLaw regulating() const;
  void enter(network::Reaction& reaction, Mode mode, double delay_s = network::no_wake);

  std::string part_;
  network::Handle<KneeLaw> channel_;
  network::NodeId anode_;
  network::NodeId cathode_;
  double on_ohm_;
  double forward_v_;
  double reverse_a_;
  GateTimes times_;

  Mode mode_ = Mode::Off;
  double wake_s_ = network::no_wake;
};

}  // namespace tideover::part
