/// The moment a fuse element parts.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/fuse/fuse_link.hpp"

namespace tideover::part {

/// Opens the link for good when its heat reaches 1. Arcing is left out: below 60 V it ends within a
/// small share of the melting time, if the current lies within the breaking capacity.
class FuseBlowing final : public network::Behaviour {
 public:
  FuseBlowing(std::string part, network::Handle<FuseLink> link, network::StateId heat,
              network::NodeId a, network::NodeId b, std::optional<double> breaks_a, bool is_blown);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<FuseBlowing>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 1; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  void react(network::Reaction& reaction, int index) override;

 private:
  std::string part_;
  network::Handle<FuseLink> link_;
  network::StateId heat_;
  network::NodeId a_;
  network::NodeId b_;
  std::optional<double> breaks_a_;
  bool is_blown_;
};

}  // namespace tideover::part
