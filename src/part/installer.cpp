#include "part/installer.hpp"

#include "base/contract.hpp"
#include "part/heat_path.hpp"

namespace tideover::part {

using network::NodeId;

NodeId make_body(network::Network& network, const Part& part, NodeId air,
                 quantity::Temperature start) {
  const NodeId body =
      network.add_thermal_node(part.name + ".body", part.heat_of_body().si(), start.si());
  network.add(HeatPath{1.0 / part.path_of_body().si()}, {body, air}, part.name + ".heat path");
  return body;
}

Installer::Installer(network::Network& network, const Part& part,
                     std::map<std::string, NodeId> nodes, NodeId air, NodeId ambient,
                     quantity::Temperature air_start, Instruments& instruments, Bodies* bodies)
    : network_(network),
      part_(part),
      nodes_(std::move(nodes)),
      air_(air),
      ambient_(ambient),
      air_start_(air_start),
      instruments_(instruments),
      bodies_(bodies) {}

NodeId Installer::node(const std::string& terminal) const {
  const auto at = nodes_.find(terminal);
  TIDEOVER_EXPECT(at != nodes_.end(), "a part asks for a terminal it does not name");
  return at->second;
}

NodeId Installer::inner_node(const std::string& name) {
  return network_.add_electrical_node(part_.name + "." + name);
}

NodeId Installer::body() {
  if (body_.index >= 0) return body_;
  body_ =
      bodies_ != nullptr ? bodies_->of(part_.name) : make_body(network_, part_, air_, air_start_);
  return body_;
}

std::optional<NodeId> Installer::body_of(const std::string& part) {
  const NodeId body = bodies_ != nullptr ? bodies_->of(part) : NodeId{};
  if (body.index < 0) return std::nullopt;
  return body;
}

void Installer::add_behaviour(std::unique_ptr<network::Behaviour> behaviour) {
  network_.add_behaviour(std::move(behaviour));
}

std::size_t Installer::watch(
    std::string name, quantity::Dimension dimension,
    std::function<double(const network::Network&, const network::View&)> value_si) {
  instruments_.channels.push_back(
      {part_.name, std::move(name), dimension, false, std::move(value_si)});
  return instruments_.channels.size() - 1;
}

std::size_t Installer::watch_voltage(std::string name, NodeId plus, NodeId minus) {
  return watch(std::move(name), quantity::Volt::dimension,
               [plus, minus](const network::Network&, const network::View& view) {
                 return view.between(plus, minus);
               });
}

std::size_t Installer::watch_temperature(std::string name, NodeId node) {
  return watch_temperature_of(
      std::move(name),
      [node](const network::Network&, const network::View& view) { return view.potential(node); });
}

std::size_t Installer::watch_temperature_of(
    std::string name,
    std::function<double(const network::Network&, const network::View&)> value_k) {
  const std::size_t channel =
      watch(std::move(name), quantity::Temperature::dimension, std::move(value_k));
  instruments_.channels[channel].is_temperature = true;
  return channel;
}

std::size_t Installer::watch_state(std::string name, network::StateId state,
                                   quantity::Dimension dimension) {
  return watch(
      std::move(name), dimension,
      [state](const network::Network&, const network::View& view) { return view.state(state); });
}

void Installer::rate(std::string name, std::size_t channel, double limit_si, bool is_upper,
                     quantity::Second stands, std::string source) {
  instruments_.ratings.push_back(
      {part_.name, std::move(name), channel, limit_si, is_upper, stands.si(), std::move(source)});
}

void Installer::watch_polarity(std::size_t channel, quantity::Volt allowed, quantity::Second stands,
                               std::string source) {
  rate("polarity", channel, -allowed.si(), false, stands, std::move(source));
  instruments_.ratings.back().is_polarity = true;
}

}  // namespace tideover::part
