#include "network/network.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace tideover::network {

namespace {

/// What ties every electrical node to the reference, so that an island that nothing holds still
/// has a potential. 10^-10 S takes 0.24 uA in all from 100 nodes at 24 V.
constexpr double leak_s = 1e-10;
/// Errors in potentials are judged against ten volts, in temperatures against ten kelvin.
constexpr double voltage_scale_v = 10.0;
constexpr double temperature_scale_k = 10.0;

}  // namespace

Network::Network() : shape_(std::make_shared<Shape>()) {}

Network::Network(const Network& other) : shape_(other.shape_), guard_start_(other.guard_start_) {
  for (const auto& group : other.groups_) groups_.push_back(group->clone());
  for (const auto& behaviour : other.behaviours_) behaviours_.push_back(behaviour->clone());
}

Network& Network::operator=(const Network& other) {
  if (this != &other) *this = Network(other);
  return *this;
}

Network::Network(Network&&) noexcept = default;
Network& Network::operator=(Network&&) noexcept = default;
Network::~Network() = default;

NodeId Network::add_electrical_node(std::string name) {
  return add_node({std::move(name), Nature::Electrical, 0.0, 0.0});
}

NodeId Network::add_thermal_node(std::string name, double heat_capacity_j_per_k, double start_k) {
  TIDEOVER_EXPECT(heat_capacity_j_per_k > 0.0, "a thermal node stores heat");
  return add_node({std::move(name), Nature::Thermal, heat_capacity_j_per_k, start_k});
}

NodeId Network::add_node(Node node) {
  TIDEOVER_EXPECT(!shape_->is_sealed, "a sealed network takes no node");
  shape_->nodes.push_back(std::move(node));
  return {static_cast<int>(shape_->nodes.size()) - 1};
}

void Network::add_behaviour(std::unique_ptr<Behaviour> behaviour) {
  TIDEOVER_EXPECT(!shape_->is_sealed, "a sealed network takes no behaviour");
  behaviours_.push_back(std::move(behaviour));
}

const std::vector<std::unique_ptr<Behaviour>>& Network::behaviours() const { return behaviours_; }

void Network::seal() {
  TIDEOVER_EXPECT(!shape_->is_sealed, "a network is sealed once");
  Shape& shape = *shape_;
  shape.is_sealed = true;
  const int nodes = node_count();
  const int unknowns = nodes + static_cast<int>(shape.states.size());
  for (const Node& node : shape.nodes) {
    const bool stores = node.storage > 0.0;
    shape.differential.push_back(stores ? 1 : 0);
    shape.scale.push_back(node.nature == Nature::Thermal ? temperature_scale_k : voltage_scale_v);
    shape.stride.push_back(std::numeric_limits<double>::infinity());
    shape.names.push_back(node.name);
    shape.share.push_back(stores ? 1.0 / node.storage : 1.0);
    shape.leak.push_back(stores ? 0.0 : leak_s);
  }
  for (const StateStart& state : shape.states) {
    shape.differential.push_back(1);
    shape.scale.push_back(state.scale);
    shape.stride.push_back(state.stride);
    shape.names.push_back(state.name);
  }
  numeric::PatternMaker maker(unknowns);
  for (const auto& group : groups_) {
    group->number(nodes, unknowns);
    group->add_pattern(maker);
  }
  shape.pattern = std::move(maker).make();
  for (const auto& group : groups_) group->place(shape.pattern);
  for (int k = 0; k < nodes; ++k) shape.diagonal.push_back(shape.pattern.find(k, k));
  guard_start_.push_back(0);
  for (const auto& behaviour : behaviours_) {
    guard_start_.push_back(guard_start_.back() + behaviour->condition_count());
  }
}

std::vector<double> Network::start() const {
  std::vector<double> y;
  for (const Node& node : shape_->nodes) y.push_back(node.start);
  for (const StateStart& state : shape_->states) y.push_back(state.start);
  return y;
}

View Network::view(double time_s, std::span<const double> y) const {
  return {time_s, y, node_count()};
}

const std::vector<std::string>& Network::unknown_names() const { return shape_->names; }
int Network::node_count() const { return static_cast<int>(shape_->nodes.size()); }
std::string Network::name_of(int unknown) const {
  return shape_->names[static_cast<std::size_t>(unknown)];
}
int Network::size() const { return static_cast<int>(shape_->differential.size()); }
std::span<const char> Network::differential() const { return shape_->differential; }
std::span<const double> Network::scale() const { return shape_->scale; }
std::span<const double> Network::stride() const { return shape_->stride; }
const numeric::Pattern& Network::pattern() const { return shape_->pattern; }

void Network::load(std::span<const double> y) const {
  y_.assign(y.begin(), y.end());
  y_.push_back(0.0);
}

void Network::finish_rates(std::span<const double> y, std::span<double> f) const {
  const double* const share = shape_->share.data();
  const double* const leak = shape_->leak.data();
  const double* const raw = f_.data();
  const std::size_t nodes = shape_->nodes.size();
  for (std::size_t k = 0; k < nodes; ++k) f[k] = share[k] * raw[k] - leak[k] * y[k];
  for (std::size_t k = nodes; k < f.size(); ++k) f[k] = raw[k];
}

void Network::rates(std::span<const double> y, std::span<double> f) const {
  load(y);
  f_.assign(y_.size(), 0.0);
  for (const auto& group : groups_) group->add_rates(y_.data(), f_.data());
  finish_rates(y, f);
}

void Network::jacobian(std::span<const double> y, std::span<double> f,
                       std::span<double> entries) const {
  load(y);
  f_.assign(y_.size(), 0.0);
  std::fill(entries.begin(), entries.end(), 0.0);
  for (const auto& group : groups_) group->add_jacobian(y_.data(), f_.data(), entries.data());
  finish_rates(y, f);
  const auto& starts = shape_->pattern.row_start();
  for (std::size_t k = 0; k < shape_->nodes.size(); ++k) {
    const Node& node = shape_->nodes[k];
    if (node.storage > 0.0) {
      for (int e = starts[k]; e < starts[k + 1]; ++e) {
        entries[static_cast<std::size_t>(e)] *= shape_->share[k];
      }
    } else {
      entries[static_cast<std::size_t>(shape_->diagonal[k])] -= leak_s;
    }
  }
}

int Network::guard_count() const { return guard_start_.empty() ? 0 : guard_start_.back(); }

void Network::guards(double time_s, std::span<const double> y, std::span<double> margins) const {
  const View now = view(time_s, y);
  for (std::size_t b = 0; b < behaviours_.size(); ++b) {
    const auto start = static_cast<std::size_t>(guard_start_[b]);
    const auto end = static_cast<std::size_t>(guard_start_[b + 1]);
    behaviours_[b]->conditions(now, margins.subspan(start, end - start));
  }
}

double Network::next_wake_s() const {
  double wake = no_wake;
  for (const auto& behaviour : behaviours_) wake = std::min(wake, behaviour->wake_s());
  return wake;
}

hybrid::Reacted Network::react(double time_s, std::span<double> y, int guard,
                               hybrid::Marks& marks) {
  Reaction reaction(*this, time_s, y, marks);
  if (guard == hybrid::woken_by_clock) {
    for (const auto& behaviour : behaviours_) {
      if (behaviour->wake_s() > time_s) continue;
      reaction.count_reaction();
      behaviour->woken(reaction);
    }
    return {.is_gentle = reaction.is_gentle()};
  }
  const auto after = std::upper_bound(guard_start_.begin(), guard_start_.end(), guard);
  const auto b = static_cast<std::size_t>(after - guard_start_.begin()) - 1;
  reaction.count_reaction();
  behaviours_[b]->react(reaction, guard - guard_start_[b]);
  return {.is_gentle = reaction.is_gentle()};
}

void Network::stimulate(double time_s, std::span<double> y, const Stimulus& stimulus,
                        hybrid::Marks& marks) {
  Reaction reaction(*this, time_s, y, marks);
  for (const auto& behaviour : behaviours_) behaviour->stimulated(reaction, stimulus);
}

void Network::settle(double time_s, std::span<double> y, bool settling, hybrid::Marks& marks) {
  Reaction reaction(*this, time_s, y, marks);
  for (const auto& behaviour : behaviours_) behaviour->settle(reaction, settling);
}

void Network::ledgers(std::span<const double> y, std::span<Ledger> out) const {
  load(y);
  std::size_t at = 0;
  for (const auto& group : groups_) {
    const auto n = static_cast<std::size_t>(group->count());
    group->ledgers(y_.data(), out.subspan(at, n));
    at += n;
  }
}

std::vector<std::string> Network::element_names() const {
  std::vector<std::string> names;
  for (const auto& group : shape_->element_names) {
    names.insert(names.end(), group.begin(), group.end());
  }
  return names;
}

double Network::stored_energy(std::span<const double> y) const {
  load(y);
  double sum = 0.0;
  for (const auto& group : groups_) sum += group->stored(y_.data());
  return sum;
}

double Network::leaked_w(std::span<const double> y) const {
  double squares = 0.0;
  for (std::size_t k = 0; k < shape_->nodes.size(); ++k) {
    if (shape_->nodes[k].storage <= 0.0) squares += y[k] * y[k];
  }
  return leak_s * squares;
}

View Reaction::view() const { return network_.view(time_s_, y_); }

void Reaction::set_state(StateId state, double value) {
  y_[static_cast<std::size_t>(network_.node_count() + state.index)] = value;
}

void Reaction::set_potential(NodeId node, double value) {
  y_[static_cast<std::size_t>(node.index)] = value;
}

void Reaction::mark(std::string_view part, std::string_view words, Effect effect) {
  marks_.push_back({time_s_, std::string(part), std::string(words), static_cast<int>(effect)});
}

}  // namespace tideover::network
