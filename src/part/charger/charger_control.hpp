/// How a charge goes: gently, full current, constant voltage, end, and again.
#pragma once

#include <memory>
#include <string>

#include "network/behaviour.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/board_guard.hpp"

namespace tideover::part {

class ChargerControl final : public network::Behaviour {
 public:
  ChargerControl(std::string part, const ChargePlan& plan, const PowerStage& law,
                 const BoardLimits& limits, const PlacedBoard& at, network::NodeId air);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<ChargerControl>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override;
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override;
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;
  [[nodiscard]] bool is(network::Fact fact) const override;

 private:
  /// Ending: at its voltage with little current, not yet for long. Holding: full, still at its
  /// voltage. Ended: full and off. GaveUp: off until the input has been away.
  enum class Mode { Charging, Ending, Holding, Ended, GaveUp };

  [[nodiscard]] bool converts() const;
  /// What its input allows at the present output, whatever it is set to.
  [[nodiscard]] double could_give_a(const network::View& view) const;
  void begin(network::Reaction& reaction);
  void apply(network::Reaction& reaction);
  void react_to_guard(network::Reaction& reaction, int index);
  /// An input that has been away begins a new charge when it is back.
  void lose_input();
  void end_charge(network::Reaction& reaction);

  std::string part_;
  ChargePlan plan_;
  PowerStage law_;
  BoardGuard guard_;
  network::NodeId air_;

  Mode mode_ = Mode::Charging;
  bool has_input_ = false;
  bool is_cold_ = false;
  bool is_gentle_ = false;
  double ends_s_ = network::no_wake;
  double gives_up_s_ = network::no_wake;
};

}  // namespace tideover::part
