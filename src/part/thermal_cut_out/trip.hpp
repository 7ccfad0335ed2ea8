/// When a thermal cut-out opens, and when it closes again.
#pragma once

#include <memory>
#include <string>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

struct TripTemperatures {
  double opens_k = 343.15;
  double resets_k = 323.15;  ///< below opens_k
};

class CutOutTrip final : public network::Behaviour {
 public:
  /// `felt`: the node whose temperature decides. One-shot: it never closes again.
  CutOutTrip(std::string part, network::Handle<WarmResistance> contact, network::NodeId felt,
             TripTemperatures temperatures, bool is_one_shot);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<CutOutTrip>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 1; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  void react(network::Reaction& reaction, int index) override;

 private:
  std::string part_;
  network::Handle<WarmResistance> contact_;
  network::NodeId felt_;
  TripTemperatures temperatures_;
  bool is_one_shot_;
  bool is_open_ = false;
  double closed_s_ = 0.0;  ///< conductance to return to
};

}  // namespace tideover::part
