/// Plugging and unplugging a connector.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// Follows `Stimulus::What::Unplugged` and `PluggedIn` that carry its name.
class Plug final : public network::Behaviour {
 public:
  Plug(std::string part, std::vector<network::Handle<Resistance>> contacts, double closed_s,
       bool is_in);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<Plug>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  void react(network::Reaction&, int) override {}
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override;

 private:
  std::string part_;
  std::vector<network::Handle<Resistance>> contacts_;
  double closed_s_;
  bool is_in_;
};

}  // namespace tideover::part
