/// What a part is given to put its equations into a network.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "network/network.hpp"
#include "part/part.hpp"

namespace tideover::part {

/// Something worth recording: a voltage, a current, a temperature, a charge.
struct Channel {
  std::string part;               ///< the sheet's name
  std::string name;               ///< "output voltage", "contact current"
  quantity::Dimension dimension;  ///< temperature points are kelvin with `is_temperature`
  bool is_temperature = false;
  std::function<double(const network::Network&, const network::View&)> value_si;
};

/// A limit of a part's make. `channel` indexes the list of channels.
struct Rating {
  std::string part;
  std::string name;  ///< "continuous current"
  std::size_t channel = 0;
  double limit_si = 0.0;
  bool is_upper = true;   ///< exceeded above the limit; else exceeded below
  double stands_s = 0.0;  ///< how long it may be exceeded without harm
  std::string source;
  bool is_polarity = false;  ///< exceeded means: plus and minus are the wrong way round
};

/// What installing all parts of a build yields beside the network itself.
struct Instruments {
  std::vector<Channel> channels;
  std::vector<Rating> ratings;
};

/// Makes the thermal node of a part's body when it is first asked for.
class Bodies {
 public:
  virtual ~Bodies() = default;
  /// Body of the part of that name; an invalid node if the build has none.
  [[nodiscard]] virtual network::NodeId of(const std::string& part) = 0;
};

/// A body for `part`: its heat capacity, and its path to `air`, as the part says.
[[nodiscard]] network::NodeId make_body(network::Network& network, const Part& part,
                                        network::NodeId air, quantity::Temperature start);

class Installer {
 public:
  /// `nodes` maps the part's terminal names to electrical nodes. `air` is the thermal node the
  /// part gives its heat to, `ambient` the one outside the box (the same for a part that stands
  /// outside); `air_start` the temperature of both before the run. `bodies` keeps the bodies made
  /// so far by part name; without it no other part's body can be felt.
  Installer(network::Network& network, const Part& part,
            std::map<std::string, network::NodeId> nodes, network::NodeId air,
            network::NodeId ambient, quantity::Temperature air_start, Instruments& instruments,
            Bodies* bodies = nullptr);

  [[nodiscard]] network::Network& network() { return network_; }
  /// Node of a terminal of this part; an unwired one has a node of its own.
  [[nodiscard]] network::NodeId node(const std::string& terminal) const;
  /// A further electrical node inside the part.
  [[nodiscard]] network::NodeId inner_node(const std::string& name);
  /// The part's body: a thermal node with `heat_of_body()`, tied to the air by `path_of_body()`.
  /// Made at the first call.
  [[nodiscard]] network::NodeId body();
  /// The body of another part, for a sensor that sits on it; nothing if there is no such part.
  [[nodiscard]] std::optional<network::NodeId> body_of(const std::string& part);
  [[nodiscard]] network::NodeId air() const { return air_; }
  /// The air outside the box, for what exchanges air or heat with it: the box itself and its fans.
  [[nodiscard]] network::NodeId ambient() const { return ambient_; }
  [[nodiscard]] quantity::Temperature air_start() const { return air_start_; }

  template <network::Law L>
  network::Handle<L> add(
      L law, const std::array<network::NodeId, static_cast<std::size_t>(L::ports)>& nodes,
      std::array<network::StateStart, static_cast<std::size_t>(L::states)> states,
      const std::string& name) {
    return network_.add(std::move(law), nodes, std::move(states), part_.name + "." + name);
  }
  template <network::Law L>
  requires(L::states == 0) network::Handle<L> add(
      L law, const std::array<network::NodeId, static_cast<std::size_t>(L::ports)>& nodes,
      const std::string& name) {
    return network_.add(std::move(law), nodes, part_.name + "." + name);
  }
  void add_behaviour(std::unique_ptr<network::Behaviour> behaviour);

  /// Channels; each returns its index for ratings.
  std::size_t watch_voltage(std::string name, network::NodeId plus, network::NodeId minus);
  std::size_t watch_temperature(std::string name, network::NodeId node);
  std::size_t watch_temperature_of(
      std::string name,
      std::function<double(const network::Network&, const network::View&)> value_k);
  std::size_t watch_state(std::string name, network::StateId state, quantity::Dimension dimension);
  std::size_t watch(std::string name, quantity::Dimension dimension,
                    std::function<double(const network::Network&, const network::View&)> value_si);

  /// `stands`: how long the limit may be exceeded without harm.
  void rate(std::string name, std::size_t channel, double limit_si, bool is_upper,
            quantity::Second stands, std::string source);
  /// Says that `channel` is the voltage from plus to minus of a part that must not be fed
  /// backwards by more than `allowed` for longer than `stands`. Half a volt the wrong way for a
  /// millisecond is no drop of a lead or a junction: common practice, no source.
  void watch_polarity(std::size_t channel, quantity::Volt allowed = quantity::Volt::of_si(0.5),
                      quantity::Second stands = quantity::Second::of_si(1e-3),
                      std::string source = "common practice, no source");

 private:
  network::Network& network_;
  const Part& part_;
  std::map<std::string, network::NodeId> nodes_;
  network::NodeId air_;
  network::NodeId ambient_;
  network::NodeId body_;
  quantity::Temperature air_start_;
  Instruments& instruments_;
  Bodies* bodies_;
};

}  // namespace tideover::part
