/// A system of differential and algebraic equations with modes, as the stepper sees it.
/// It knows nothing of circuits.
///
///     y_i' = f_i(y)     for differential unknowns
///      0   = f_i(y)     for algebraic ones            (index 1: solvable for them)
///
/// f does not depend on time between events: whatever changes with the clock is a mode or a state.
/// While one mode lasts f is smooth. A mode ends where a guard's margin becomes positive, or at
/// the instant next_wake_s(). Plain doubles: the maker of the system knows the units.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "numeric/pattern.hpp"

namespace tideover::hybrid {

/// Words put into the record at an event.
struct Mark {
  double time_s = 0.0;
  std::string who;
  std::string words;
  int effect = 0;  ///< what it means for others, as whoever marks counts it
};
using Marks = std::vector<Mark>;

/// Guard index that stands for "the clock has reached next_wake_s()".
inline constexpr int woken_by_clock = -1;

struct Reacted {
  /// The jump is mild enough that the next step may be as long as the last: error control alone
  /// decides whether what follows at once is followed or stepped over.
  bool is_gentle = false;
};

class System {
 public:
  virtual ~System() = default;

  [[nodiscard]] virtual int size() const = 0;
  /// What a message calls an unknown.
  [[nodiscard]] virtual std::string name_of(int unknown) const {
    return "unknown " + std::to_string(unknown);
  }
  /// One flag an unknown: 1 differential, 0 algebraic.
  [[nodiscard]] virtual std::span<const char> differential() const = 0;
  /// Typical magnitude of each unknown, > 0; errors are judged against max(|y|, scale).
  [[nodiscard]] virtual std::span<const double> scale() const = 0;
  /// How far each unknown may move in one step at most, because f has structure on that scale that
  /// the few stages of a longer step would not see (the knots of a measured curve); infinite where
  /// there is none.
  [[nodiscard]] virtual std::span<const double> stride() const = 0;
  /// f(y); both of size().
  virtual void rates(std::span<const double> y, std::span<double> f) const = 0;

  [[nodiscard]] virtual const numeric::Pattern& pattern() const = 0;
  /// f and df/dy, entries in the order of pattern(), one slot more than entry_count().
  virtual void jacobian(std::span<const double> y, std::span<double> f,
                        std::span<double> entries) const = 0;

  [[nodiscard]] virtual int guard_count() const = 0;
  /// margin > 0: the guard's condition holds and must act.
  virtual void guards(double time_s, std::span<const double> y,
                      std::span<double> margins) const = 0;
  [[nodiscard]] virtual double next_wake_s() const = 0;
  /// Lets guard `guard` act (or the clock). May change modes and differential unknowns.
  virtual Reacted react(double time_s, std::span<double> y, int guard, Marks& marks) = 0;
};

}  // namespace tideover::hybrid
