/// The handle of a switch.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// Goes where the timeline sends it by `Stimulus::What::SwitchTo` with its name; a position that
/// the switch does not have is left out.
class SwitchPosition final : public network::Behaviour {
 public:
  /// `contacts[pole][way - 1]`; `lowest_position` 0 where there is an off, else 1.
  SwitchPosition(std::string part, std::vector<std::vector<network::Handle<Resistance>>> contacts,
                 double closed_s, int lowest_position, int position);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<SwitchPosition>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  void react(network::Reaction&, int) override {}
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override;

  [[nodiscard]] int position() const { return position_; }

 private:
  std::string part_;
  std::vector<std::vector<network::Handle<Resistance>>> contacts_;
  double closed_s_;
  int lowest_position_;
  int position_;
};

}  // namespace tideover::part
