/// How a run through time ended, and what it took.
#pragma once

#include <string>

namespace tideover::hybrid {

enum class Ended {
  AtTime,      ///< the time asked for was reached
  ByObserver,  ///< an observer had seen enough
  Restless,    ///< modes changed without end at one instant, or a cycle of events would not stop
  Stuck,       ///< the step would have become too small for the clock
  OpenBooks,   ///< said by whoever keeps them: energy does not add up, so nothing else can be
               ///< trusted
};

struct Statistics {
  long steps = 0;
  long refused_steps = 0;  ///< error or convergence
  long located_events = 0;
  long reactions = 0;
  long rate_evaluations = 0;  ///< f(y)
  long jacobian_evaluations = 0;
  long factorisations = 0;
  long plans = 0;
  double smallest_step_s = 0.0;
  double largest_step_s = 0.0;
};

struct Outcome {
  Ended ended{};
  double time_s = 0.0;
  std::string why;  ///< for Restless and Stuck: which guard or unknown, in words
};

}  // namespace tideover::hybrid
