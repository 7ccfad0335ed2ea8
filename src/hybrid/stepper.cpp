#include "hybrid/stepper.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace tideover::hybrid {

namespace {

constexpr double safety = 0.8;
/// A step may grow to this many times the last one; not at all just after one was refused.
constexpr double most_growth = 10.0;
constexpr double least_growth = 0.1;
/// An event is bracketed to this share of its step, or to `locate_s` where that is more.
constexpr double locate_share = 1e-7;
constexpr double locate_s = 1e-8;
constexpr int most_trials = 80;
/// A first step this much shorter than the one tried follows its transient, not steps over it.
constexpr double followed_share = 0.02;
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
      next_h_(settings.first_step_s) {
  TIDEOVER_EXPECT(static_cast<int>(y_.size()) == system.size(), "one start value an unknown");
  restart(false);
}

void Stepper::restart(bool is_gentle) {
  step_.modes_changed();
  step_.solve_algebraic(y_);
  system_.rates(y_, slope_);
  const auto differential = system_.differential();
  for (std::size_t k = 0; k < slope_.size(); ++k) {
    if (differential[k] == 0) slope_[k] = 0.0;
  }
  from_ = is_gentle ? ImplicitStep::From::Mild : ImplicitStep::From::Event;
  next_h_ = std::min(next_h_, is_gentle ? 2.0 * mild_h_ : settings_.first_step_s);
  tried_mild_h_ = next_h_;
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
    if (reactions_without_rest_ >= settings_.most_reactions_at_once) {
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
    return Tried::Failed;
  }
  const double order = std::min(settings_.tableau->order, settings_.tableau->embedded_order) + 1;
  const double error = std::max(attempt.error, 1e-10);
  const double factor = safety * std::pow(error, -1.0 / order);
  if (attempt.error > 1.0) {
    ++statistics_.refused_steps;
    next_h_ = h * std::clamp(factor, least_growth, 0.9);
    growth_ = 1.0;
    return Tried::Refused;
  }
  next_h_ = std::min(h * std::clamp(factor, least_growth, growth_), settings_.longest_step_s);
  growth_ = most_growth;
  return Tried::Accepted;
}

/// Where the first of the guards that hold at `high` crosses zero, by the straight line between
/// both ends of the bracket. The margins of an end that has stayed twice count for less each time
/// (Dowell and Jarratt, BIT 11 (1971) 168, the Illinois method; from memory).
double Stepper::Bracket::crossing() const {
  double share = high;
  for (std::size_t g = 0; g < high_margins.size(); ++g) {
    if (high_margins[g] <= 0.0) continue;
    const double below = low_weight * std::max(0.0, -low_margins[g]);
    const double above = high_weight * high_margins[g];
    share = std::min(share, low + (high - low) * below / (below + above));
  }
  return share;
}

/// The next length to try: the crossing itself until it stands still, then just beside it, on the
/// side whose end is still far.
double Stepper::Bracket::next_trial(double tolerance) {
  const double root = crossing();
  const bool stands_still = std::abs(root - last_root) < 20.0 * tolerance;
  last_root = root;
  double trial = root;
  if (stands_still) trial += high - root > tolerance ? 0.4 * tolerance : -0.4 * tolerance;
  if (trial <= low || trial >= high) trial = 0.5 * (low + high);
  return trial;
}

void Stepper::Bracket::take(double trial, bool holds, const std::vector<double>& margins) {
  if (holds) {
    low_weight = was_high ? 0.5 * low_weight : 1.0;
    high_weight = 1.0;
    high = trial;
    high_margins = margins;
    high_holds = true;
  } else {
    high_weight = was_high ? 1.0 : 0.5 * high_weight;
    low_weight = 1.0;
    low = trial;
    low_margins = margins;
  }
  was_high = holds;
}

/// Shortens the step just tried until it ends just behind the first instant at which a guard
/// holds. Returns its length; the attempt of that length is the last one made.
double Stepper::locate(double h) {
  const double tolerance = std::max(locate_s / h, locate_share);
  Bracket bracket;
  double trial = first_suspect_share(h);
  double tried = 1.0;
  system_.guards(time_s_, y_, margins_);
  bracket.low_margins = margins_;
  for (int iteration = 0; iteration < most_trials; ++iteration) {
    if (trial != tried && !step_.attempt(y_, slope_, trial * h, from_).converged) return 0.0;
    tried = trial;
    bracket.take(trial, any_guard_holds(step_.value(), time_s_ + trial * h), margins_);
    // A stage may have seen what the shorter step does not bear out.
    if (!bracket.high_holds || bracket.high - bracket.low <= tolerance) break;
    trial = bracket.next_trial(tolerance);
  }
  if (bracket.high_holds && tried != bracket.high) {
    if (!step_.attempt(y_, slope_, bracket.high * h, from_).converged) return 0.0;
    tried = bracket.high;
  }
  needs_reaction_ = bracket.high_holds;
  if (bracket.high_holds) ++statistics_.located_events;
  return tried * h;
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
  // A transient that had to be followed for once says nothing of the next.
  if (from_ == ImplicitStep::From::Mild && h > followed_share * tried_mild_h_) mild_h_ = h;
  from_ = ImplicitStep::From::Smooth;
}

Outcome Stepper::stuck() const {
  return {Ended::Stuck, time_s_, "unknown " + std::to_string(step_.worst_unknown())};
}

Outcome Stepper::advance(double until_s, Observer& observer) {
  while (true) {
    if (needs_reaction_ || system_.next_wake_s() <= time_s_) {
      const Outcome reacted = react_to_all(observer);
      if (reacted.ended != Ended::AtTime) return reacted;
      if (observer.has_seen_enough()) return {Ended::ByObserver, time_s_, ""};
    }
    if (time_s_ >= until_s) return {Ended::AtTime, time_s_, ""};
    const double stop = std::min(until_s, system_.next_wake_s());
    const double left = stop - time_s_;
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
