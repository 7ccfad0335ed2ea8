/// The air around the build: ambient, the box's air, the parts' bodies in them.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "build/build.hpp"
#include "network/network.hpp"
#include "part/installer.hpp"

namespace tideover::run {

struct LeadElement;

class Surroundings final : public part::Bodies {
 public:
  /// `network` and `build` must outlive this object.
  Surroundings(network::Network& network, const build::Build& build, quantity::Temperature start);

  [[nodiscard]] network::NodeId ambient() const { return ambient_; }
  /// The box's air for a part in the box, else ambient. The box itself stands in its own air.
  [[nodiscard]] network::NodeId air_of(const part::Part& part) const;
  [[nodiscard]] network::NodeId of(const std::string& part) override;

  /// What moves ambient when the timeline says so, and the leads' resistance as the air warms.
  void add_behaviours(const std::vector<LeadElement>& leads);

 private:
  network::Network& network_;
  const build::Build& build_;
  quantity::Temperature start_;
  network::NodeId ambient_;
  network::NodeId box_air_;
  std::map<std::string, network::NodeId> bodies_;
};

}  // namespace tideover::run
