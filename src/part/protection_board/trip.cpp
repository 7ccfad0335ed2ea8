#include "part/protection_board/trip.hpp"

namespace tideover::part {

using network::Fact;
using network::never;
using network::Reaction;
using network::View;

void Trip::conditions(const View& view, std::span<double> margins) const {
  margins[0] = margins[1] = never;
  switch (mode_) {
    case Mode::Calm: margins[0] = over(view); break;
    case Mode::Arming: margins[1] = -over(view) - over_hysteresis(); break;
    case Mode::Tripped: margins[1] = may_release(view); break;
    case Mode::Leaving: margins[0] = -may_release(view) - release_hysteresis(); break;
  }
}

void Trip::react(Reaction& reaction, int /*index*/) {
  switch (mode_) {
    case Mode::Calm: enter(reaction, Mode::Arming); break;
    case Mode::Arming: enter(reaction, Mode::Calm); break;
    case Mode::Tripped: enter(reaction, Mode::Leaving); break;
    case Mode::Leaving: enter(reaction, Mode::Tripped); break;
  }
}

void Trip::woken(Reaction& reaction) {
  if (mode_ == Mode::Arming) {
    gates_.block(reaction, direction_, bit_, why(reaction.view()));
    mode_ = Mode::Tripped;
  } else if (mode_ == Mode::Leaving) {
    gates_.release(reaction, direction_, bit_);
    mode_ = Mode::Calm;
  }
  ends_s_ = network::no_wake;
}

void Trip::enter(Reaction& reaction, Mode mode) {
  mode_ = mode;
  ends_s_ = network::no_wake;
  if (mode == Mode::Arming) ends_s_ = reaction.time_s() + times_.delay_s;
  if (mode == Mode::Leaving) ends_s_ = reaction.time_s() + times_.release_delay_s;
  // Only a delay begins or ends: no current changes yet.
  reaction.allow_long_step();
}

bool Trip::is(Fact fact) const {
  return fact == Fact::CutOff && direction_ == Direction::Discharge && has_tripped() &&
         !gates_.is_stuck_on(direction_);
}

}  // namespace tideover::part
