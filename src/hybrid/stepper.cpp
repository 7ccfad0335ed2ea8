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

Stepper::Stepper(System& system, const Settings& settings, double time_s, std::vector<double> y)
    : system_(system),
      settings_(settings),
      step_(system, *settings.tableau, settings.relative_tolerance, statistics_),
      time_s_(time_s),
      y_(std::move(y)),
      slope_(y_.size()),
      margins_(static_cast<std::size_t>(system.guard_count())),
      between_(y_.size()),
      next_h_(settings.first_step_s) {
  TIDEOVER_EXPECT(static_cast<int>(y_.size()) == system.size(), "one start value an unknown");
  restart(false);
}

void Stepper::restart(bool is_gentle) {
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

/// The earliest stage of the step just tried at which a guard holds, as a share of it; 0: none.
double Stepper::first_suspect_share(double h) {
  const Step tried = step_.step(time_s_);
  double share = 0.0;
  for (std::size_t i = 1; i < tried.stages.size(); ++i) {
    const double c = tried.tableau->c[i];
    if (share > 0.0 && c >= share) continue;
    if (any_guard_holds(tried.stages[i], time_s_ + c * h)) share = c;
  }
  return share;
}

Stepper::Tried Stepper::try_step(double h) {
  const ImplicitStep::Attempt attempt = step_.attempt(y_, slope_, h, from_);
  if (!attempt.converged) {
    ++statistics_.refused_steps;
    next_h_ = 0.2 * h;
    // Between a length far too long and that of a first step lie many: halve the way on a log
    // scale.
    if (from_ == ImplicitStep::From::Mild) {
      next_h_ = std::min(next_h_, std::sqrt(h * settings_.first_step_s));
    }
    growth_ = 1.0;
    solvable_h_ = 0.5 * h;
    return Tried::Failed;
  }
  const double order = std::min(settings_.tableau->order, settings_.tableau->embedded_order) + 1;
  const double error = std::max(attempt.error, 1e-10);
  const double factor = safety * std::pow(error, -1.0 / order);
  if (attempt.error > 1.0) {
    ++statistics_.refused_steps;
    // A transient that cannot be stepped over must be followed, from well within it.
    next_h_ = h * std::clamp(factor, least_growth, from_ == ImplicitStep::From::Mild ? 0.2 : 0.9);
    growth_ = 1.0;
    return Tried::Refused;
  }
  next_h_ = std::min(
      {h * std::clamp(factor, least_growth, growth_), settings_.longest_step_s, solvable_h_});
  solvable_h_ *= solvable_growth;
  growth_ = most_growth;
  return Tried::Accepted;
}

/// Where between two shares of the last attempt, of length h, a guard begins to hold by its dense
/// output; `high` if none does before.
double Stepper::crossing_within(double h, double low, double high) {
  const Step tried = step_.step(time_s_);
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
  system_.guards(time_s_ + (1.0 - look_back_share) * h, between_, margins_);
  const std::vector<double> before = margins_;
  system_.guards(time_s_ + h, tried.after(), margins_);
  double ahead = std::numeric_limits<double>::infinity();
  for (std::size_t g = 0; g < margins_.size(); ++g) {
    const double rise = (margins_[g] - before[g]) / look_back_share;
    if (rise > 0.0) ahead = std::min(ahead, -margins_[g] / rise);
  }
  return 1.0 + ahead;
}

/// Shortens the step just tried until it ends just behind the first instant at which a guard
/// holds: the dense output says where that should be, a step of that length whether it is so.
/// Returns its length, 0 if an attempt failed; the attempt of that length is the last one made.
double Stepper::locate(double h) {
  const double tolerance = std::max(locate_s / h, locate_share);
  double low = 0.0;
  double high = first_suspect_share(h);
  double crossing = crossing_within(h, low, high);
  needs_reaction_ = false;
  for (int trial_count = 0; trial_count < most_trials; ++trial_count) {
    double trial = crossing + 0.5 * tolerance;
    if (trial >= high && !needs_reaction_) trial = high;
    const bool has_misled = trial_count % 3 == 2;
    if (has_misled || trial <= low || trial > high) trial = 0.5 * (low + high);
    if (!step_.attempt(y_, slope_, trial * h, from_).converged) return 0.0;
    if (any_guard_holds(step_.value(), time_s_ + trial * h)) {
      needs_reaction_ = true;
      high = trial;
      crossing = trial * crossing_within(trial * h, low / trial, 1.0);
      if (high - std::max(low, crossing) <= tolerance) break;
    } else {
      // A stage may have seen what no shorter step bears out.
      if (trial == high) return trial * h;
      low = trial;
      crossing = trial * crossing_beyond(trial * h);
    }
    if (needs_reaction_ && high - low <= tolerance) {
      if (trial != high && !step_.attempt(y_, slope_, high * h, from_).converged) return 0.0;
      break;
    }
  }
  ++statistics_.located_events;
  return high * h;
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
    if (try_step(h) != Tried::Accepted) continue;
    if (reaches_stop) next_h_ = std::max(next_h_, wished);
    if (first_suspect_share(h) > 0.0) {
      const double shorter = locate(h);
      if (shorter == 0.0) {
        next_h_ = 0.2 * h;
        continue;
      }
      reaches_stop = reaches_stop && shorter == h;
      h = shorter;
    }
    accept(reaches_stop ? stop : time_s_ + h, observer);
    if (observer.has_seen_enough()) return {Ended::ByObserver, time_s_, ""};
  }
}

}  // namespace tideover::hybrid
