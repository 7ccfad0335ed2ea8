#include "part/load/load_service.hpp"

#include <algorithm>

namespace tideover::part {

using network::Fact;
using network::Reaction;
using network::Stimulus;
using network::View;

namespace {

enum Condition { too_low, high_enough, too_high, low_enough };

/// A load that has dropped out comes back when its input is this much inside its range again:
/// common practice for input supervisors, no source.
constexpr double return_margin = 0.01;
/// And no sooner than this after it dropped out: the reset delay of such supervisors, typical, from
/// memory. Without it a load whose own current pulls its input out of range would never be done.
constexpr double stays_off_s = 0.1;
/// Out of service for this long and its boot time, a load does not merely restart: longer than any
/// changeover, shorter than anything that is asked for. Assumed.
constexpr double restarts_within_s = 10.0;

}  // namespace

LoadService::LoadService(const Load& load, network::Handle<LoadDraw> draw, network::NodeId plus,
                         network::NodeId minus)
    : part_(load.name),
      draw_(draw),
      plus_(plus),
      minus_(minus),
      lowest_v_(load.accepts.low().si()),
      highest_v_(load.accepts.high().si()),
      rides_s_(load.rides.si()),
      boot_s_(load.boot.si()) {
  for (const ProfileStretch& stretch : load.profile) {
    stretches_.push_back({stretch.name, stretch.draws.si(), stretch.lasts.si()});
  }
  if (!stretches_.empty()) profile_ = stretches_.front().name;
}

void LoadService::conditions(const View& view, std::span<double> margins) const {
  const double v = view.between(plus_, minus_);
  const bool works = mode_ == Mode::Serving || mode_ == Mode::Booting;
  const bool is_over = mode_ == Mode::Straining || mode_ == Mode::Overfed;
  const bool rests = mode_ == Mode::Off && mode_ends_s_ < network::no_wake;
  margins[too_low] = works ? lowest_v_ - v : network::never;
  margins[high_enough] =
      works || is_over || rests ? network::never : v - lowest_v_ * (1.0 + return_margin);
  margins[too_high] = works ? v - highest_v_ : network::never;
  margins[low_enough] = is_over ? highest_v_ * (1.0 - return_margin) - v : network::never;
}

double LoadService::wake_s() const { return std::min({mode_ends_s_, stretch_ends_s_, gone_at_s_}); }

void LoadService::react(Reaction& reaction, int index) {
  const bool is_serving = mode_ == Mode::Serving;
  switch (index) {
    case too_low: enter(reaction, is_serving ? Mode::Riding : Mode::Off); break;
    case too_high: enter(reaction, is_serving ? Mode::Straining : Mode::Overfed); break;
    case high_enough: enter(reaction, mode_ == Mode::Riding ? Mode::Serving : Mode::Booting); break;
    default: enter(reaction, mode_ == Mode::Straining ? Mode::Serving : Mode::Booting);
  }
}

void LoadService::woken(Reaction& reaction) {
  if (reaction.time_s() >= mode_ends_s_) {
    if (mode_ == Mode::Off) {
      mode_ends_s_ = network::no_wake;
      reaction.allow_long_step();
    } else if (mode_ == Mode::Straining) {
      enter(reaction, Mode::Overfed);
    } else {
      enter(reaction, mode_ == Mode::Booting ? Mode::Serving : Mode::Off);
    }
  }
  if (reaction.time_s() >= gone_at_s_) {
    gone_at_s_ = network::no_wake;
    is_gone_ = true;
    reaction.allow_long_step();
  }
  if (reaction.time_s() >= stretch_ends_s_) {
    next_stretch(reaction);
    reaction.allow_long_step();
  }
}

void LoadService::enter(Reaction& reaction, Mode mode) {
  const Mode before = mode_;
  const bool served = serves();
  mode_ = mode;
  mode_ends_s_ = network::no_wake;
  if (mode == Mode::Off) mode_ends_s_ = reaction.time_s() + stays_off_s;
  if (mode == Mode::Riding || mode == Mode::Straining) mode_ends_s_ = reaction.time_s() + rides_s_;
  if (mode == Mode::Booting) mode_ends_s_ = reaction.time_s() + boot_s_;
  if (serves()) {
    is_gone_ = false;
    gone_at_s_ = network::no_wake;
  } else if (served) {
    gone_at_s_ = reaction.time_s() + restarts_within_s + boot_s_;
  }
  reaction.network().law(draw_).share = mode == Mode::Off ? 0.0 : 1.0;
  // What is off has no profile; what starts up begins it anew.
  if (mode == Mode::Off) stretch_ends_s_ = network::no_wake;
  if (mode == Mode::Booting && before == Mode::Off) begin_profile(reaction);
  tell(reaction, before);
}

void LoadService::tell(Reaction& reaction, Mode before) const {
  if (mode_ == Mode::Off) reaction.mark(part_, "is lost", network::Effect::LoadLost);
  if (mode_ == Mode::Overfed)
    reaction.mark(part_, "gets more voltage than it accepts", network::Effect::LoadLost);
  if (mode_ == Mode::Booting && boot_s_ > 0.0) reaction.mark(part_, "starts up");
  if (mode_ == Mode::Serving && before == Mode::Booting) {
    reaction.mark(part_, "serves", network::Effect::LoadServes);
  }
}

void LoadService::stimulated(Reaction& reaction, const Stimulus& stimulus) {
  const bool is_meant = stimulus.part.empty() || stimulus.part == part_;
  if (stimulus.what != Stimulus::What::ProfileTo || !is_meant || !has_profile(stimulus.word))
    return;
  profile_ = stimulus.word;
  if (mode_ != Mode::Off) begin_profile(reaction);
}

bool LoadService::has_profile(const std::string& name) const {
  return std::any_of(stretches_.begin(), stretches_.end(),
                     [&](const Stretch& stretch) { return stretch.name == name; });
}

void LoadService::begin_profile(Reaction& reaction) {
  if (stretches_.empty()) return;
  if (is_settling_) {
    apply_mean(reaction);
    return;
  }
  stretch_ = stretches_.size() - 1;
  next_stretch(reaction);
}

void LoadService::next_stretch(Reaction& reaction) {
  for (std::size_t tried = 0; tried < stretches_.size(); ++tried) {
    stretch_ = (stretch_ + 1) % stretches_.size();
    if (stretches_[stretch_].name != profile_) continue;
    reaction.network().law(draw_).power_w = stretches_[stretch_].power_w;
    stretch_ends_s_ = reaction.time_s() + stretches_[stretch_].lasts_s;
    return;
  }
}

void LoadService::settle(Reaction& reaction, bool settling) {
  is_settling_ = settling;
  if (mode_ != Mode::Off) begin_profile(reaction);
}

void LoadService::apply_mean(Reaction& reaction) {
  double energy_j = 0.0;
  double length_s = 0.0;
  for (const Stretch& stretch : stretches_) {
    if (stretch.name != profile_) continue;
    energy_j += stretch.power_w * stretch.lasts_s;
    length_s += stretch.lasts_s;
  }
  reaction.network().law(draw_).power_w = energy_j / length_s;
  stretch_ends_s_ = network::no_wake;
}

bool LoadService::is(Fact fact) const {
  return (fact == Fact::Served && serves()) || (fact == Fact::Lost && !serves()) ||
         (fact == Fact::Gone && is_gone_);
}

}  // namespace tideover::part
