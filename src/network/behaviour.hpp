/// The sudden side of a part: what it does when a condition comes true or a delay runs out.
///
/// A behaviour owns the discrete memory of one part. In its present mode it watches some
/// conditions; each is a smooth margin that is negative while the condition does not hold and
/// positive when it does. The run stops where a margin crosses zero, and `react` changes modes.
/// Conditions are levels, not edges: whatever is true after an event acts at once, in the order of
/// the parts, until nothing is left to do. A condition that has acted must therefore be closed
/// (margin `never`) or be made false by hysteresis.
#pragma once

#include <limits>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "hybrid/system.hpp"
#include "network/node.hpp"

namespace tideover::network {

class Network;

/// Margin of a condition that cannot come true in the present mode.
inline constexpr double never = -1e30;
/// Time of a delay that is not running.
inline constexpr double no_wake = std::numeric_limits<double>::infinity();

/// The unknowns at one instant.
class View {
 public:
  View(double time_s, std::span<const double> y, int node_count)
      : time_s_(time_s), y_(y), node_count_(node_count) {}

  [[nodiscard]] double time_s() const { return time_s_; }
  [[nodiscard]] double potential(NodeId node) const {
    return node.index < 0 ? 0.0 : y_[static_cast<std::size_t>(node.index)];
  }
  [[nodiscard]] double between(NodeId plus, NodeId minus) const {
    return potential(plus) - potential(minus);
  }
  [[nodiscard]] double state(StateId state) const {
    return y_[static_cast<std::size_t>(node_count_ + state.index)];
  }
  [[nodiscard]] std::span<const double> unknowns() const { return y_; }

 private:
  double time_s_;
  std::span<const double> y_;
  int node_count_;
};

/// What happens from outside during a timeline.
struct Stimulus {
  enum class What {
    MainsLost,  ///< at the adapter's mains side
    MainsBack,
    Unplugged,  ///< at the adapter's DC plug
    PluggedIn,
    SwitchTo,   ///< a switch goes to `position`
    ProfileTo,  ///< load `part` (empty: every load) goes over to the profile named `word`
    AmbientTo,  ///< ambient moves to `amount` [K]
    ChargeTo,   ///< a pack named `word` is found at state of charge `amount` (0..1)
  };
  What what{};
  std::string word = {};
  int position = 0;
  double amount = 0.0;
  std::string part = {};
};

/// What a behaviour reports about its part, for timelines and verdicts.
enum class Fact {
  Served,  ///< a load: its input is in range and it has booted
  Lost,    ///< a load: not served now
  Gone,    ///< a load: not served for longer than a restart takes
  CutOff,  ///< a pack's board does not let it discharge
  Full,    ///< a charger or pack has finished charging
};

/// What an event means for the parts around it: how the cause of a loss is told from what merely
/// happened near it.
enum class Effect {
  Other,
  MainsGoes,     ///< at one adapter
  MainsReturns,  ///< at one adapter
  Stops,         ///< it no longer feeds what it fed: a board cuts, a converter turns off
  Resumes,
  Breaks,  ///< it stops for good: a fuse blows
  LoadLost,
  LoadServes,
};

/// Everything react() may touch.
class Reaction {
 public:
  Reaction(Network& network, double time_s, std::span<double> y, hybrid::Marks& marks)
      : network_(network), time_s_(time_s), y_(y), marks_(marks) {}

  [[nodiscard]] Network& network() { return network_; }
  [[nodiscard]] double time_s() const { return time_s_; }
  [[nodiscard]] View view() const;
  /// Sets a state at once. Stored energy must not change unless the ledger of the law says so.
  void set_state(StateId state, double value);
  /// Sets the potential of a node with storage at once (a body found at a stated temperature).
  void set_potential(NodeId node, double value);
  /// Puts words into the record: "relay lets go". `part` is the sheet's name of the part.
  void mark(std::string_view part, std::string_view words, Effect effect = Effect::Other);
  /// Says that what this reaction did needs no close following in time: a load that draws somewhat
  /// more or less. Any reaction at the same instant that does not say so outweighs it.
  void allow_long_step() { ++gentle_; }
  [[nodiscard]] bool is_gentle() const { return gentle_ > 0 && gentle_ == reactions_; }
  void count_reaction() { ++reactions_; }

 private:
  int gentle_ = 0;
  int reactions_ = 0;
  Network& network_;
  double time_s_;
  std::span<double> y_;
  hybrid::Marks& marks_;
};

class Behaviour {
 public:
  virtual ~Behaviour() = default;
  [[nodiscard]] virtual std::unique_ptr<Behaviour> clone() const = 0;
  /// The sheet's name of the part.
  [[nodiscard]] virtual std::string_view part() const = 0;

  /// Fixed over the life of the behaviour.
  [[nodiscard]] virtual int condition_count() const = 0;
  /// Fills one margin a condition; closed ones with `never`. Margins are of order one where the
  /// condition is far from true: volts, amperes, kelvin.
  virtual void conditions(const View& view, std::span<double> margins) const = 0;
  /// The next instant at which a delay runs out, or `no_wake`.
  [[nodiscard]] virtual double wake_s() const { return no_wake; }

  /// Condition `index` has come true.
  virtual void react(Reaction& reaction, int index) = 0;
  /// The delay of wake_s() has run out.
  virtual void woken(Reaction& reaction) { static_cast<void>(reaction); }
  /// Something happens from outside; ignored where it means nothing to the part.
  virtual void stimulated(Reaction& reaction, const Stimulus& stimulus) {
    static_cast<void>(reaction);
    static_cast<void>(stimulus);
  }
  /// Whether `fact` holds now; false where it means nothing to the part.
  [[nodiscard]] virtual bool is(Fact fact) const {
    static_cast<void>(fact);
    return false;
  }
  /// While a run settles, bursts and the like are replaced by their mean.
  virtual void settle(Reaction& reaction, bool settling) {
    static_cast<void>(reaction);
    static_cast<void>(settling);
  }
};

}  // namespace tideover::network
