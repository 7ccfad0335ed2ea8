/// What a converter does when its input comes and goes and when it gets hot.
#pragma once

#include <memory>
#include <string>

#include "network/behaviour.hpp"
#include "part/converter/board_guard.hpp"

namespace tideover::part {

class ConverterControl final : public network::Behaviour {
 public:
  ConverterControl(std::string part, const PowerStage& law, const BoardLimits& limits,
                   const PlacedBoard& at);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<ConverterControl>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return BoardGuard::condition_count; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override { return guard_.wake_s(); }
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;

 private:
  std::string part_;
  PowerStage law_;
  BoardGuard guard_;
};

}  // namespace tideover::part
