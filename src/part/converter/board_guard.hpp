/// What turns a board off whatever it is set to: too little input, too much heat.
#pragma once

#include <span>

#include "network/network.hpp"
#include "part/converter/board.hpp"

namespace tideover::part {

/// The part of a control that all boards share; a plain value inside their behaviours.
class BoardGuard {
 public:
  static constexpr int condition_count = 4;

  BoardGuard(const BoardLimits& limits, const PlacedBoard& at) : limits_(limits), at_(at) {}

  [[nodiscard]] bool is_awake() const { return mode_ == Mode::Awake; }
  /// Fills the first `condition_count` margins.
  void conditions(const network::View& view, std::span<double> margins) const;
  /// When the pause after a lockout is over, or `no_wake`.
  [[nodiscard]] double wake_s() const { return pause_ends_s_; }
  /// Condition `index` < condition_count has come true; puts it into words.
  [[nodiscard]] const char* react(double time_s, int index);
  /// What the last reaction means for what the board feeds.
  [[nodiscard]] network::Effect effect(bool was_awake) const {
    if (was_awake == is_awake()) return network::Effect::Other;
    return was_awake ? network::Effect::Stops : network::Effect::Resumes;
  }
  /// The clock has reached wake_s().
  void woken();
  /// Writes the law into the network; a stage that begins to convert begins its soft start anew, at
  /// zero. It never sinks: an output that something else holds up waits until the rise has passed
  /// it.
  void apply(network::Reaction& reaction, PowerStage& law, bool converts) const;
  [[nodiscard]] const PlacedBoard& at() const { return at_; }

 private:
  /// Pausing: locked out a moment ago, and off whatever its input does.
  enum class Mode { Starved, Awake, Hot, Pausing };
  BoardLimits limits_;
  PlacedBoard at_;
  Mode mode_ = Mode::Starved;
  double pause_ends_s_ = network::no_wake;
};

}  // namespace tideover::part
