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
  /// Condition `index` < condition_count has come true; puts it into words.
  [[nodiscard]] const char* react(int index);
  /// Writes the law into the network; a stage that begins to convert rises from where its output
  /// stands.
  void apply(network::Reaction& reaction, PowerStage& law, bool converts) const;
  [[nodiscard]] const PlacedBoard& at() const { return at_; }

 private:
  enum class Mode { Starved, Awake, Hot };
  BoardLimits limits_;
  PlacedBoard at_;
  Mode mode_ = Mode::Starved;
};

}  // namespace tideover::part
