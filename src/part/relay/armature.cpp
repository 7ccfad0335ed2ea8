#include "part/relay/armature.hpp"

#include <array>
#include <cmath>

namespace tideover::part {

using network::Reaction;
using network::View;

namespace {

/// Shares of the bounce time at which a contact that has touched opens, closes, opens, closes:
/// two hops, the second lower than the first (common practice, no source).
constexpr std::array bounce_shares{0.15, 0.50, 0.65, 1.0};

}  // namespace

Armature::Armature(std::string part, network::StateId coil_current, ArmatureThresholds thresholds,
                   ArmatureTimes times, std::vector<Pole> poles, double contact_ohm)
    : part_(std::move(part)),
      coil_current_(coil_current),
      thresholds_(thresholds),
      times_(times),
      poles_(std::move(poles)),
      closed_s_(1.0 / contact_ohm) {}

void Armature::conditions(const View& view, std::span<double> margins) const {
  // Either polarity pulls. The margin is a share of the threshold, so of order one.
  const double current_a = std::abs(view.state(coil_current_));
  margins[0] = is_pulled() ? 1.0 - current_a / thresholds_.release_a
                           : current_a / thresholds_.pick_up_a - 1.0;
}

double Armature::position(double time_s) const {
  if (mode_ == Mode::Resting) return 0.0;
  if (mode_ == Mode::Working) return 1.0;
  const double gone_s = time_s - started_s_;
  return mode_ == Mode::ToWork ? std::fmin(1.0, started_from_ + gone_s / times_.travel_s)
                               : std::fmax(0.0, started_from_ - gone_s / times_.return_travel_s);
}

void Armature::react(Reaction& reaction, int /*index*/) {
  const bool moved = mode_ == Mode::ToWork || mode_ == Mode::ToRest;
  if (is_pulled()) {
    reaction.mark(part_, moved ? "turns back before its contacts have closed" : "lets go");
    set_off(reaction, Mode::ToRest);
  } else {
    reaction.mark(part_,
                  moved ? "is pulled again before its contacts have come to rest" : "picks up");
    set_off(reaction, Mode::ToWork);
  }
}

void Armature::set_off(Reaction& reaction, Mode mode) {
  started_from_ = position(reaction.time_s());
  started_s_ = reaction.time_s();
  mode_ = mode;
  wake_s_ = started_s_ + (mode == Mode::ToWork ? (1.0 - started_from_) * times_.travel_s
                                               : started_from_ * times_.return_travel_s);
  close(reaction, false, false);
}

void Armature::woken(Reaction& reaction) {
  if (mode_ == Mode::ToWork || mode_ == Mode::ToRest) {
    arrive(reaction);
  } else {
    bounce(reaction);
  }
}

void Armature::arrive(Reaction& reaction) {
  mode_ = mode_ == Mode::ToWork ? Mode::Working : Mode::Resting;
  touched_s_ = reaction.time_s();
  bounces_done_ = 0;
  wake_s_ =
      times_.bounce_s > 0.0 ? touched_s_ + bounce_shares[0] * times_.bounce_s : network::no_wake;
  close(reaction, mode_ == Mode::Resting, mode_ == Mode::Working);
  reaction.mark(part_, mode_ == Mode::Working ? "contact touches the work side"
                                              : "contact touches the rest side");
}

void Armature::bounce(Reaction& reaction) {
  const bool touches = bounces_done_ % 2 == 1;
  ++bounces_done_;
  wake_s_ = bounces_done_ < bounce_shares.size()
                ? touched_s_ + bounce_shares[bounces_done_] * times_.bounce_s
                : network::no_wake;
  close(reaction, touches && mode_ == Mode::Resting, touches && mode_ == Mode::Working);
}

void Armature::close(Reaction& reaction, bool rest, bool work) const {
  for (const Pole& pole : poles_) {
    reaction.network().law(pole.rest).conductance_s = rest ? closed_s_ : open_conductance_s;
    reaction.network().law(pole.work).conductance_s = work ? closed_s_ : open_conductance_s;
  }
}

}  // namespace tideover::part
