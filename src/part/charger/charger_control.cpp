#include "part/charger/charger_control.hpp"

#include <algorithm>

namespace tideover::part {

using network::Fact;
using network::Reaction;
using network::View;

namespace {

enum Condition {
  takes_little = BoardGuard::condition_count,
  takes_more,
  pack_has_fallen,
  pack_is_very_empty,
  pack_is_above_very_empty,
  air_is_cold,
  air_is_warm_again,
  input_falls_short,
  input_suffices,
  past_last,
};

/// How long little current must last before the charge counts as ended; typical, from memory.
constexpr double little_for_s = 1.0;
/// At its voltage limit: within this share of it. Below the lower one it no longer is.
constexpr double at_limit = 0.985;
constexpr double off_limit = 0.975;
/// Current that undoes "little", over the current that is little.
constexpr double more_over_little = 1.5;
/// Its input suffices where it could give this many times the current that is little, and falls
/// short where it could not give even that: then too small a current says nothing of the pack.
constexpr double enough_over_little = 2.0;
constexpr double gentle_hysteresis = 1.03;
constexpr double cold_hysteresis_k = 3.0;

}  // namespace

ChargerControl::ChargerControl(std::string part, const ChargePlan& plan, const PowerStage& law,
                               const BoardLimits& limits, const PlacedBoard& at,
                               network::NodeId air)
    : part_(std::move(part)), plan_(plan), law_(law), guard_(limits, at), air_(air) {
  law_.running = 0.0;
}

int ChargerControl::condition_count() const { return past_last; }

bool ChargerControl::converts() const {
  const bool wants = mode_ == Mode::Charging || mode_ == Mode::Ending || mode_ == Mode::Holding;
  return guard_.is_awake() && wants && !is_cold_;
}

void ChargerControl::conditions(const View& view, std::span<double> margins) const {
  guard_.conditions(view, margins);
  std::fill(margins.begin() + BoardGuard::condition_count, margins.end(), network::never);
  const double t = view.potential(air_);
  if (is_cold_) {
    margins[air_is_warm_again] = t - plan_.cold_k - cold_hysteresis_k;
  } else {
    margins[air_is_cold] = plan_.cold_k - t;
  }
  if (!guard_.is_awake()) return;
  const double v = view.between(guard_.at().out_plus, guard_.at().out_minus);
  const double possible_a = could_give_a(view);
  if (has_input_) {
    margins[input_falls_short] = plan_.ends_a - possible_a;
  } else {
    margins[input_suffices] = possible_a - enough_over_little * plan_.ends_a;
  }
  if (mode_ == Mode::Ended) margins[pack_has_fallen] = plan_.again_v - v;
  if (!converts()) return;
  if (is_gentle_) {
    margins[pack_is_above_very_empty] = v - gentle_hysteresis * plan_.gentle_below_v;
  } else if (plan_.gentle_below_v > 0.0) {
    margins[pack_is_very_empty] = plan_.gentle_below_v - v;
  }
  const double i = guard_.at().output_a(law_, view);
  if (mode_ == Mode::Charging && has_input_ && !is_gentle_) {
    margins[takes_little] = std::min(plan_.ends_a - i, v - at_limit * plan_.voltage_v);
  }
  if (mode_ == Mode::Ending || mode_ == Mode::Holding) {
    margins[takes_more] =
        std::max(i - more_over_little * plan_.ends_a, off_limit * plan_.voltage_v - v);
  }
}

double ChargerControl::could_give_a(const View& view) const {
  const PlacedBoard& at = guard_.at();
  return law_.reachable_a(view.between(at.in_plus, at.in_minus),
                          view.between(at.out_plus, at.out_minus));
}

double ChargerControl::wake_s() const { return std::min({ends_s_, gives_up_s_, guard_.wake_s()}); }

void ChargerControl::react(Reaction& reaction, int index) {
  switch (index) {
    case takes_little:
      mode_ = Mode::Ending;
      ends_s_ = reaction.time_s() + little_for_s;
      reaction.allow_long_step();
      return;
    case takes_more:
      mode_ = Mode::Charging;
      ends_s_ = network::no_wake;
      reaction.allow_long_step();
      return;
    case pack_has_fallen:
      reaction.mark(part_, "begins again");
      begin(reaction);
      break;
    case pack_is_very_empty:
    case pack_is_above_very_empty:
      is_gentle_ = index == pack_is_very_empty;
      reaction.mark(part_, is_gentle_ ? "charges gently: the pack is very empty"
                                      : "goes over to its full current");
      break;
    case air_is_cold:
    case air_is_warm_again:
      is_cold_ = index == air_is_cold;
      if (mode_ == Mode::Ending) mode_ = Mode::Charging;
      ends_s_ = network::no_wake;
      reaction.mark(part_, is_cold_ ? "waits: too cold to charge" : "is warm enough to charge");
      break;
    case input_falls_short: lose_input(); break;
    case input_suffices:
      has_input_ = true;
      begin(reaction);
      reaction.allow_long_step();
      break;
    default: react_to_guard(reaction, index);
  }
  apply(reaction);
}

void ChargerControl::react_to_guard(Reaction& reaction, int index) {
  const bool was_awake = guard_.is_awake();
  const char* const words = guard_.react(reaction.time_s(), index);
  reaction.mark(part_, words, guard_.effect(was_awake));
  if (guard_.is_awake() && !was_awake) begin(reaction);
  if (!guard_.is_awake()) lose_input();
}

void ChargerControl::lose_input() {
  has_input_ = false;
  mode_ = Mode::Charging;
  ends_s_ = network::no_wake;
  gives_up_s_ = network::no_wake;
}

void ChargerControl::begin(Reaction& reaction) {
  mode_ = Mode::Charging;
  is_gentle_ = false;
  ends_s_ = network::no_wake;
  gives_up_s_ = plan_.gives_up_s > 0.0 ? reaction.time_s() + plan_.gives_up_s : network::no_wake;
}

void ChargerControl::woken(Reaction& reaction) {
  if (reaction.time_s() >= guard_.wake_s()) {
    guard_.woken();
  } else if (reaction.time_s() >= ends_s_) {
    end_charge(reaction);
  } else if (reaction.time_s() >= gives_up_s_) {
    mode_ = Mode::GaveUp;
    gives_up_s_ = network::no_wake;
    reaction.mark(part_, "gives up: it has charged too long");
  }
  apply(reaction);
}

void ChargerControl::end_charge(Reaction& reaction) {
  mode_ = plan_.ends ? Mode::Ended : Mode::Holding;
  ends_s_ = network::no_wake;
  gives_up_s_ = network::no_wake;
  reaction.mark(part_,
                plan_.ends ? "has charged: turns itself off" : "has charged: holds its voltage");
}

void ChargerControl::apply(Reaction& reaction) {
  law_.limit_a = is_gentle_ ? plan_.gentle_a : plan_.current_a;
  guard_.apply(reaction, law_, converts());
}

bool ChargerControl::is(Fact fact) const {
  const bool is_full = mode_ == Mode::Ended || mode_ == Mode::Holding;
  return fact == Fact::Full && is_full && guard_.is_awake();
}

}  // namespace tideover::part
