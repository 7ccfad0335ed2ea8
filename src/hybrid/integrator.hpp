/// What takes a hybrid system through time: the stepper, or whatever it is held against.
#pragma once

#include <span>

#include "hybrid/outcome.hpp"
#include "hybrid/step.hpp"
#include "hybrid/system.hpp"

namespace tideover::hybrid {

class Observer {
 public:
  virtual ~Observer() = default;
  virtual void stepped(const Step& step) { static_cast<void>(step); }
  /// After all reactions at one instant; `marks` are the words of just these.
  virtual void reacted(double time_s, std::span<const double> y, const Marks& marks) {
    static_cast<void>(time_s);
    static_cast<void>(y);
    static_cast<void>(marks);
  }
  /// Asked after each step and each event; true ends the run there.
  [[nodiscard]] virtual bool has_seen_enough() { return false; }
};

class Integrator {
 public:
  virtual ~Integrator() = default;
  /// Goes on to `until_s`, letting the observer look. May be called again for the next stretch.
  virtual Outcome advance(double until_s, Observer& observer) = 0;
  /// To be called after the system's modes were changed from outside at the present instant.
  virtual void disturbed() = 0;
  [[nodiscard]] virtual double time_s() const = 0;
  [[nodiscard]] virtual std::span<double> y() = 0;
  [[nodiscard]] virtual const Statistics& statistics() const = 0;
};

}  // namespace tideover::hybrid
