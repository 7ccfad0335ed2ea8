/// Takes a hybrid system through time: adaptive steps while a mode lasts, events where it ends.
///
///     until the end:
///       h := as long as the error allowed, not past the end or the next delay's end
///       attempt a step; refused: shorter
///       a guard's margin is positive at one of its stages: leave the rest of it; shorten the step
///         to just behind the first such instant (bracketed to locate_share of the step), or, where
///         the event is still ahead, take that step and go on from there
///       accept; the observer sees it
///       at an event: guards that hold act, lowest index first, the clock before them; algebraic
///         unknowns are solved anew; again until none holds
///
/// x(t-) is the value before an event, x(t+) after; guards are levels (margin > 0), and a step
/// owns its end, not its beginning. Events at one instant are taken in the order of guard indices.
#pragma once

#include <functional>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "hybrid/implicit_step.hpp"
#include "hybrid/integrator.hpp"
#include "hybrid/outcome.hpp"
#include "hybrid/step.hpp"
#include "hybrid/system.hpp"

namespace tideover::hybrid {

struct Settings {
  double relative_tolerance = 1e-6;
  const Tableau* tableau = &esdirk_43();
  double first_step_s = 1e-6;  ///< also after every event that is not gentle
  double longest_step_s = 1e300;
  bool steps_over_transients = true;  ///< of mild events; false: they are followed like any other
  int most_reactions_at_once = 1000;
  /// Reactions, the clock's not counted, with never `restful_s` between two: a cycle of modes that
  /// drive each other ends the run there.
  long most_reactions = std::numeric_limits<long>::max();
  double restful_s = 60.0;
  /// Events that keep following each other closer than this count as one instant.
  double shortest_rest_s = 1e-6;
};

class Stepper final : public Integrator {
 public:
  /// `system` must outlive the stepper. y: start values; algebraic ones are solved for.
  Stepper(System& system, const Settings& settings, double time_s, std::vector<double> y);

  Outcome advance(double until_s, Observer& observer) override;
  void disturbed() override;
  [[nodiscard]] double time_s() const override { return time_s_; }
  [[nodiscard]] std::span<double> y() override { return y_; }
  [[nodiscard]] const Statistics& statistics() const override { return statistics_; }

 private:
  enum class Tried { Accepted, Refused, Event };

  Outcome react_to_all(Observer& observer);
  void restart(bool is_gentle);
  /// What factor on the step's length should bring its error to what is allowed.
  [[nodiscard]] double growth_for(double error) const;
  ImplicitStep::Attempt attempt(double h, double near_s);
  Tried try_step(double h);
  void shorten(double h, const ImplicitStep::Attempt& attempt);
  double locate(double h);
  double stop_short(double h, double high);
  double crossing_before(double share);
  double crossing_within(double h);
  double crossing_beyond(double h);
  [[nodiscard]] bool any_guard_holds(std::span<const double> y, double time_s);
  void accept(double end_s, Observer& observer);
  [[nodiscard]] Outcome stuck() const;

  System& system_;
  Settings settings_;
  Statistics statistics_;
  ImplicitStep step_;
  double time_s_;
  std::vector<double> y_;
  std::vector<double> slope_;
  std::vector<double> margins_;
  std::vector<double> earlier_margins_;
  std::vector<double> between_;  ///< unknowns somewhere within an attempt
  double next_h_;
  double growth_ = 1.0;   ///< most the next step may grow by
  double seen_at_ = 0.0;  ///< share of the last attempt at which a guard was first seen to hold
  /// How near the event has to be found that the last step stopped short of; 0: it did not.
  double near_s_ = 0.0;
  /// Longest step at which Newton's iteration is trusted to find an answer.
  double solvable_h_ = std::numeric_limits<double>::infinity();
  /// What the last step that began at a mild event suggests for the next.
  double mild_h_ = std::numeric_limits<double>::infinity();
  bool is_first_try_ = true;  ///< since the last event
  ImplicitStep::From from_ = ImplicitStep::From::Event;
  bool needs_reaction_ = true;
  double last_event_s_ = -std::numeric_limits<double>::infinity();
  int reactions_without_rest_ = 0;
  long quick_reactions_ = 0;  ///< without a rest between them
  double last_reaction_s_ = -std::numeric_limits<double>::infinity();  ///< not the clock's
  std::string last_who_;                                               ///< whose mark was the last
};

}  // namespace tideover::hybrid
