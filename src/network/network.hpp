/// A network: nodes, elements between them, and behaviours that switch the elements' modes.
///
/// The unknowns y are all node potentials, then all element states. Electrical nodes without
/// storage are algebraic (currents sum to zero); thermal nodes with a heat capacity and element
/// states are differential. With the signs of law.hpp
///     0       = -sum of flows into the elements at the node        (algebraic node)
///     C du/dt = -sum of flows into the elements at the node        (node with storage C)
///     dx/dt   = rate                                              (state)
/// A network is a value: a copy runs on its own. One copy serves one run at a time.
#pragma once

#include <array>
#include <limits>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "hybrid/system.hpp"
#include "network/behaviour.hpp"
#include "network/element_group.hpp"
#include "network/node.hpp"

namespace tideover::network {

/// Where one law stands in a network; valid for the network that made it and all its copies.
template <Law L>
struct Handle {
  int group = -1;
  int item = -1;
};

/// A state as its maker declares it.
struct StateStart {
  std::string name;    ///< "charge", "coil current": for records and messages
  double start = 0.0;  ///< value before settling
  double scale = 1.0;  ///< typical magnitude; errors are judged against it
  double stride = std::numeric_limits<double>::infinity();  ///< see hybrid::System
};

class Network final : public hybrid::System {
 public:
  Network();
  Network(const Network& other);
  Network& operator=(const Network& other);
  Network(Network&&) noexcept;
  Network& operator=(Network&&) noexcept;
  ~Network() override;

  /// Electrical node; a stated leak (network.cpp) ties it to the reference so that floating islands
  /// have a potential.
  NodeId add_electrical_node(std::string name);
  /// Thermal node with heat capacity [J/K] > 0 and start temperature [K].
  NodeId add_thermal_node(std::string name, double heat_capacity_j_per_k, double start_k);

  template <Law L>
  Handle<L> add(L law, const std::array<NodeId, static_cast<std::size_t>(L::ports)>& nodes,
                std::array<StateStart, static_cast<std::size_t>(L::states)> states,
                std::string name);
  template <Law L>
  requires(L::states ==
           0) Handle<L> add(L law,
                            const std::array<NodeId, static_cast<std::size_t>(L::ports)>& nodes,
                            std::string name) {
    return add(std::move(law), nodes, {}, std::move(name));
  }

  /// State s of the element behind a handle.
  template <Law L>
  [[nodiscard]] StateId state(Handle<L> handle, int s = 0) const;
  template <Law L>
  [[nodiscard]] const L& law(Handle<L> handle) const;
  /// Changing a law is a mode change: allowed while building and inside react() only.
  template <Law L>
  [[nodiscard]] L& law(Handle<L> handle);

  void add_behaviour(std::unique_ptr<Behaviour> behaviour);
  [[nodiscard]] const std::vector<std::unique_ptr<Behaviour>>& behaviours() const;

  /// To be called once when all nodes and elements stand; afterwards the shape is fixed.
  void seal();

  /// Start values of all unknowns (algebraic ones are first guesses).
  [[nodiscard]] std::vector<double> start() const;
  [[nodiscard]] View view(double time_s, std::span<const double> y) const;
  [[nodiscard]] const std::vector<std::string>& unknown_names() const;
  [[nodiscard]] int node_count() const;

  /// Powers of every element, summed: instantaneous, in the order of element_names().
  void ledgers(std::span<const double> y, std::span<Ledger> out) const;
  [[nodiscard]] std::vector<std::string> element_names() const;
  [[nodiscard]] double stored_energy(std::span<const double> y) const;
  /// Power that the leak takes which ties every electrical node to the reference, in watts.
  [[nodiscard]] double leaked_w(std::span<const double> y) const;

  /// Something happens from outside; every behaviour hears of it.
  void stimulate(double time_s, std::span<double> y, const Stimulus& stimulus,
                 hybrid::Marks& marks);
  void settle(double time_s, std::span<double> y, bool settling, hybrid::Marks& marks);

  // hybrid::System
  [[nodiscard]] int size() const override;
  [[nodiscard]] std::string name_of(int unknown) const override;
  [[nodiscard]] std::span<const char> differential() const override;
  [[nodiscard]] std::span<const double> scale() const override;
  [[nodiscard]] std::span<const double> stride() const override;
  void rates(std::span<const double> y, std::span<double> f) const override;
  [[nodiscard]] const numeric::Pattern& pattern() const override;
  void jacobian(std::span<const double> y, std::span<double> f,
                std::span<double> entries) const override;
  [[nodiscard]] int guard_count() const override;
  void guards(double time_s, std::span<const double> y, std::span<double> margins) const override;
  [[nodiscard]] double next_wake_s() const override;
  hybrid::Reacted react(double time_s, std::span<double> y, int guard,
                        hybrid::Marks& marks) override;

 private:
  struct Node {
    std::string name;
    Nature nature{};
    double storage = 0.0;
    double start = 0.0;
  };
  /// What never changes once sealed; shared by all copies.
  struct Shape {
    bool is_sealed = false;
    std::vector<Node> nodes;
    std::vector<StateStart> states;
    std::vector<std::vector<std::string>> element_names;  ///< [group][item]
    std::vector<std::string> names;
    std::vector<char> differential;
    std::vector<double> scale;
    std::vector<double> stride;
    numeric::Pattern pattern;
    std::vector<int> diagonal;  ///< entry (k, k) of each node
    std::vector<double> share;  ///< of each node: one over what it stores, else 1
    std::vector<double> leak;   ///< of each node: what ties it to the reference, in siemens
  };

  NodeId add_node(Node node);
  template <Law L>
  int group_of();
  void load(std::span<const double> y) const;
  void finish_rates(std::span<const double> y, std::span<double> f) const;

  std::vector<std::unique_ptr<ElementGroup>> groups_;
  std::vector<std::unique_ptr<Behaviour>> behaviours_;
  std::shared_ptr<Shape> shape_;
  std::vector<int> guard_start_;   ///< first guard of each behaviour, and their number at the end
  mutable std::vector<double> y_;  ///< unknowns with the reference node's slot at the end
  mutable std::vector<double> f_;
};

template <Law L>
int Network::group_of() {
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    if (dynamic_cast<ElementsOf<L>*>(groups_[g].get()) != nullptr) return static_cast<int>(g);
  }
  groups_.push_back(std::make_unique<ElementsOf<L>>());
  shape_->element_names.emplace_back();
  return static_cast<int>(groups_.size()) - 1;
}

template <Law L>
Handle<L> Network::add(L law, const std::array<NodeId, static_cast<std::size_t>(L::ports)>& nodes,
                       std::array<StateStart, static_cast<std::size_t>(L::states)> states,
                       std::string name) {
  TIDEOVER_EXPECT(!shape_->is_sealed, "a sealed network takes no element");
  const int group = group_of<L>();
  auto& items = static_cast<ElementsOf<L>&>(*groups_[static_cast<std::size_t>(group)]).items;
  auto& item = items.emplace_back();
  item.law = std::move(law);
  std::size_t k = 0;
  for (const NodeId node : nodes) item.unknown[k++] = node.index;
  for (StateStart& state : states) {
    item.unknown[k++] = static_cast<int>(shape_->states.size());
    state.name = name + " " + state.name;
    shape_->states.push_back(std::move(state));
  }
  shape_->element_names[static_cast<std::size_t>(group)].push_back(std::move(name));
  return {group, static_cast<int>(items.size()) - 1};
}

template <Law L>
StateId Network::state(Handle<L> handle, int s) const {
  const auto& group =
      static_cast<const ElementsOf<L>&>(*groups_[static_cast<std::size_t>(handle.group)]);
  const int unknown = group.items[static_cast<std::size_t>(handle.item)]
                          .unknown[static_cast<std::size_t>(L::ports + s)];
  return {shape_->is_sealed ? unknown - node_count() : unknown};
}

template <Law L>
const L& Network::law(Handle<L> handle) const {
  return static_cast<const ElementsOf<L>&>(*groups_[static_cast<std::size_t>(handle.group)])
      .items[static_cast<std::size_t>(handle.item)]
      .law;
}

template <Law L>
L& Network::law(Handle<L> handle) {
  return static_cast<ElementsOf<L>&>(*groups_[static_cast<std::size_t>(handle.group)])
      .items[static_cast<std::size_t>(handle.item)]
      .law;
}

}  // namespace tideover::network
