#include "hybrid/stepper.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/contract.hpp"

namespace tideover::hybrid {

namespace {

constexpr double safety = 0.8;
/// A step may grow to this many times the last one; not at all just after one was refused.
constexpr double most_growth = 20.0;
/// The same just behind a step that has stepped over a transient.
constexpr double mild_growth = 4.0;
/// How fast a length at which Newton failed is forgotten, a step.
constexpr double solvable_growth = 1.5;
constexpr double least_growth = 0.1;
/// An event is bracketed to this share of its step, or to `locate_s` where that is more.
constexpr double locate_share = 1e-6;
constexpr double locate_s = 1e-8;
/// What has been asked for the event that a step stopped short of holds until a step of this share
/// of that step's length has seen none.
constexpr double near_share_kept = 0.1;
constexpr int most_trials = 60;
constexpr int halvings = 24;
/// How far back from its end an attempt is asked how fast a margin rises.
constexpr double look_back_share = 0.05;
/// A transient is worth stepping over in one go if this many of the first steps that followed the
/// last one fit between the event and the next.
constexpr double worth_stepping_over = 50.0;
/// What goes on for longer than this is no transient to be stepped over.
constexpr double longest_mild_s = 300.0;
/// A step shorter than this share of the clock's reading cannot be told from none.
constexpr double clock_grain = 1e-15;

}  // namespace

double Stepper::growth_for(double error) const {
  const double order = std::min(settings_.tableau->order, settings_.tableau->embedded_order) + 1;
  return safety * std::pow(std::max(error, 1e-10), -1.0 / order);
}

Stepper::Stepper(System& system, const Settings& settings, double time_s, std::vector<double> y)
    : system_(system),
      settings_(settings),
      step_(system, *settings.tableau, settings.relative_tolerance, statistics_),
      time_s_(time_s),
      y_(std::move(y)),
      slope_(y_.size()),
      margins_(static_cast<std::size_t>(system.guard_count())),
      earlier_margins_(margins_.size()),
      between_(y_.size()),
      next_h_(settings.first_step_s) {
  TIDEOVER_EXPECT(static_cast<int>(y_.size()) == system.size(), "one start value an unknown");
  restart(false);
}

void Stepper::restart(bool is_gentle) {
  is_gentle = is_gentle && settings_.steps_over_transients;
  if (!is_gentle) step_.modes_changed();
  step_.solve_algebraic(y_);
  system_.rates(y_, slope_);
  const auto differential = system_.differential();
  for (std::size_t k = 0; k < slope_.size(); ++k) {
    if (differential[k] == 0) slope_[k] = 0.0;
  }
  from_ = is_gentle ? ImplicitStep::From::Mild : ImplicitStep::From::Event;
  if (!is_gentle) next_h_ = std::min(next_h_, settings_.first_step_s);
  is_first_try_ = true;
}

void Stepper::disturbed() {
  restart(false);
  needs_reaction_ = true;
}

Outcome Stepper::react_to_all(Observer& observer) {
  needs_reaction_ = false;
  Marks marks;
  bool is_gentle = true;
  int count = 0;
  if (time_s_ - last_event_s_ > settings_.shortest_rest_s) reactions_without_rest_ = 0;
  for (;; ++count, ++reactions_without_rest_) {
    int guard = woken_by_clock;
    if (system_.next_wake_s() > time_s_) {
      system_.guards(time_s_, y_, margins_);
      const auto held = std::find_if(margins_.begin(), margins_.end(),
                                     [](double margin) { return margin > 0.0; });
      if (held == margins_.end()) break;
      guard = static_cast<int>(held - margins_.begin());
    }
    if (guard != woken_by_clock) {
      quick_reactions_ =
          time_s_ - last_reaction_s_ > settings_.restful_s ? 1 : quick_reactions_ + 1;
      last_reaction_s_ = time_s_;
    }
    if (reactions_without_rest_ >= settings_.most_reactions_at_once ||
        quick_reactions_ > settings_.most_reactions) {
      observer.reacted(time_s_, y_, marks);
      return {Ended::Restless, time_s_, last_who_};
    }
    is_gentle = system_.react(time_s_, y_, guard, marks).is_gentle && is_gentle;
    ++statistics_.reactions;
    if (!marks.empty()) last_who_ = marks.back().who;
    restart(is_gentle);
  }
  if (count == 0) return {Ended::AtTime, time_s_, ""};
  last_event_s_ = time_s_;
  observer.reacted(time_s_, y_, marks);
  return {Ended::AtTime, time_s_, ""};
}

bool Stepper::any_guard_holds(std::span<const double> y, double time_s) {
  system_.guards(time_s, y, margins_);
  return std::any_of(margins_.begin(), margins_.end(), [](double m) { return m > 0.0; });
}

/// A step of length h from here, ended at the first solved stage at which a guard holds, but for
/// the last only where that is further away than `near_s`; the margins there stay in margins_.
ImplicitStep::Attempt Stepper::attempt(double h, double near_s) {
  const auto ends = [this, h, near_s](std::span<const double> y, double share) {
    return (share == 1.0 || h > near_s) && any_guard_holds(y, time_s_ + share * h);
  };
  return step_.attempt(y_, slope_, h, from_, ends);
}

/// Sets the next length after an attempt that cannot stand.
void Stepper::shorten(double h, const ImplicitStep::Attempt& attempt) {
  ++statistics_.refused_steps;
  growth_ = 1.0;
  const bool is_mild = from_ == ImplicitStep::From::Mild;
  if (attempt.converged) {
    // A transient that cannot be stepped over must be followed, from well within it.
    next_h_ = h * std::clamp(growth_for(attempt.error), least_growth, is_mild ? 0.2 : 0.9);
    return;
  }
  next_h_ = 0.2 * h;
  // Between a length far too long and that of a first step lie many: halve the way on a log scale.
  if (is_mild) next_h_ = std::min(next_h_, std::sqrt(h * settings_.first_step_s));
  solvable_h_ = 0.5 * h;
}

Stepper::Tried Stepper::try_step(double h) {
  const ImplicitStep::Attempt tried = attempt(h, 0.0);
  seen_at_ = tried.ended_at;
  if (tried.converged && tried.ended_at > 0.0 && tried.ended_at < 1.0) return Tried::Event;
  if (!tried.converged || tried.error > 1.0) {
    shorten(h, tried);
    return Tried::Refused;
  }
  if (tried.ended_at > 0.0) return Tried::Event;
  next_h_ = std::min({h * std::clamp(growth_for(tried.error), least_growth, growth_),
                      settings_.longest_step_s, solvable_h_});
  solvable_h_ *= solvable_growth;
  growth_ = most_growth;
  return Tried::Accepted;
}

/// Where between the beginning of the last attempt and its stage at `share`, whose margins are at
/// hand, a guard begins to hold if margins rise evenly; in shares of the attempt.
double Stepper::crossing_before(double share) {
  system_.guards(time_s_, y_, earlier_margins_);
  double crossing = share;
  for (std::size_t g = 0; g < margins_.size(); ++g) {
    if (!(margins_[g] > 0.0)) continue;
    const double before = earlier_margins_[g];
    crossing = std::min(crossing, share * before / (before - margins_[g]));
  }
  return crossing;
}

/// Where in the last attempt, of length h, a guard begins to hold by its dense output; in shares.
double Stepper::crossing_within(double h) {
  const Step tried = step_.step(time_s_);
  double low = 0.0;
  double high = 1.0;
  for (int halving = 0; halving < halvings; ++halving) {
    const double middle = 0.5 * (low + high);
    tried.at(middle, between_);
    (any_guard_holds(between_, time_s_ + middle * h) ? high : low) = middle;
  }
  return high;
}

/// Where behind the end of the last attempt, of length h and without a guard that holds, the first
/// will, should its margin go on rising as at the end; in shares of h, infinite if none rises.
double Stepper::crossing_beyond(double h) {
  const Step tried = step_.step(time_s_);
  tried.at(1.0 - look_back_share, between_);
  system_.guards(time_s_ + (1.0 - look_back_share) * h, between_, earlier_margins_);
  system_.guards(time_s_ + h, tried.after(), margins_);
  double ahead = std::numeric_limits<double>::infinity();
  for (std::size_t g = 0; g < margins_.size(); ++g) {
    const double rise = (margins_[g] - earlier_margins_[g]) / look_back_share;
    if (rise > 0.0) ahead = std::min(ahead, -margins_[g] / rise);
  }
  return 1.0 + ahead;
}

/// The last attempt, of length h, ends before the event that was seen no later than at `high`: it
/// stands, and the next one is to reach just behind the event. Returns h.
double Stepper::stop_short(double h, double high) {
  const double ahead_s = h * (crossing_beyond(h) - 1.0);
  next_h_ = std::clamp(ahead_s + 0.5 * near_s_, near_s_, std::max(high - h, near_s_));
  growth_ = most_growth;
  near_s_ *= 2.0;
  return h;
}

/// Takes a step that ends just behind the first instant at which a guard holds, or before it where
/// that turns out to be further away than thought: the margins of the stage that saw it say where
/// it should be, a step of that length whether it is so, and where else. Returns the length of the
/// attempt that is to stand, 0 if one failed.
double Stepper::locate(double h) {
  near_s_ = std::max({locate_s, locate_share * h, near_s_});
  double high = seen_at_ * h;
  double guess = (seen_at_ < 1.0 ? crossing_before(seen_at_) : crossing_within(h)) * h;
  for (int trial_count = 0; trial_count < most_trials; ++trial_count) {
    double trial = std::min(guess + 0.5 * near_s_, high);
    if (trial_count % 3 == 2) trial = 0.5 * high;
    trial = std::max(trial, std::min(near_s_, h));
    const ImplicitStep::Attempt tried = attempt(trial, near_s_);
    if (tried.ended_at > 0.0 && tried.ended_at < 1.0) {
      high = tried.ended_at * trial;
      guess = crossing_before(tried.ended_at) * trial;
      continue;
    }
    if (!tried.converged || tried.error > 1.0) {
      shorten(trial, tried);
      return 0.0;
    }
    if (tried.ended_at == 0.0) return stop_short(trial, high);
    high = trial;
    guess = crossing_within(trial) * trial;
    if (trial - guess <= near_s_ || trial <= near_s_) {
      needs_reaction_ = true;
      near_s_ = 0.0;
      ++statistics_.located_events;
      return trial;
    }
  }
  return 0.0;
}

void Stepper::accept(double end_s, Observer& observer) {
  Step done = step_.step(time_s_);
  done.end_s = end_s;
  ++statistics_.steps;
  const double h = done.length_s();
  statistics_.smallest_step_s =
      statistics_.steps == 1 ? h : std::min(statistics_.smallest_step_s, h);
  statistics_.largest_step_s = std::max(statistics_.largest_step_s, h);
  observer.stepped(done);
  std::copy(done.after().begin(), done.after().end(), y_.begin());
  std::copy(done.slopes.back().begin(), done.slopes.back().end(), slope_.begin());
  time_s_ = end_s;
  step_.accepted();
  if (from_ == ImplicitStep::From::Mild) {
    mild_h_ = next_h_;
    growth_ = mild_growth;
  }
  from_ = ImplicitStep::From::Smooth;
}

Outcome Stepper::stuck() const {
  return {Ended::Stuck, time_s_, system_.name_of(step_.worst_unknown())};
}

Outcome Stepper::advance(double until_s, Observer& observer) {
  while (true) {
    if (needs_reaction_ || system_.next_wake_s() <= time_s_) {
      Outcome reacted = react_to_all(observer);
      if (reacted.ended != Ended::AtTime) return reacted;
      if (observer.has_seen_enough()) return {Ended::ByObserver, time_s_, ""};
    }
    if (time_s_ >= until_s) return {Ended::AtTime, time_s_, ""};
    const double stop = std::min(until_s, system_.next_wake_s());
    const double left = stop - time_s_;
    if (from_ == ImplicitStep::From::Mild && std::exchange(is_first_try_, false)) {
      next_h_ = left > worth_stepping_over * mild_h_ ? std::min(left, longest_mild_s) : mild_h_;
    }
    // A rest shorter than a tenth of a step is taken along rather than left over.
    bool reaches_stop = next_h_ >= 0.9 * left;
    double h = reaches_stop ? left : next_h_;
    if (h < clock_grain * std::max(1.0, std::abs(time_s_)) && !reaches_stop) return stuck();
    const double wished = next_h_;
    const Tried tried = try_step(h);
    if (tried == Tried::Refused) continue;
    if (tried == Tried::Accepted) {
      if (locate_share * h > near_share_kept * near_s_) near_s_ = 0.0;
      if (reaches_stop) next_h_ = std::max(next_h_, wished);
    } else {
      const double shorter = locate(h);
      if (shorter == 0.0) continue;
      reaches_stop = reaches_stop && shorter == h;
      h = shorter;
    }
    accept(reaches_stop ? stop : time_s_ + h, observer);
    if (observer.has_seen_enough()) return {Ended::ByObserver, time_s_, ""};
  }
}

}  // namespace tideover::hybrid
