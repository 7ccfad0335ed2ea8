#include "run/surroundings.hpp"

#include <cmath>

#include "build/parts_of.hpp"
#include "part/box/box.hpp"
#include "run/circuit.hpp"

namespace tideover::run {

using network::NodeId;

namespace {

/// Ambient takes any heat: a capacity no build can warm.
constexpr double ambient_heat_j_per_k = 1e15;
/// The leads' resistance follows the air in steps of this much: 0.8 % of copper's resistance.
constexpr double lead_step_k = 2.0;

/// Ambient as the timeline moves it.
class AmbientAir final : public network::Behaviour {
 public:
  explicit AmbientAir(NodeId node) : node_(node) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<AmbientAir>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "ambient"; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  void react(network::Reaction&, int) override {}
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override {
    if (stimulus.what == network::Stimulus::What::AmbientTo) {
      reaction.set_potential(node_, stimulus.amount);
    }
  }

 private:
  NodeId node_;
};

/// The resistance of the leads in one air, brought up to date whenever that air has moved.
class LeadWarmth final : public network::Behaviour {
 public:
  LeadWarmth(std::vector<LeadElement> leads, NodeId air, double start_k)
      : leads_(std::move(leads)), air_(air), used_k_(start_k) {}
  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<LeadWarmth>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "leads"; }
  [[nodiscard]] int condition_count() const override { return 2; }
  void conditions(const network::View& view, std::span<double> margins) const override {
    const double moved = view.potential(air_) - used_k_;
    margins[0] = moved - lead_step_k;
    margins[1] = -moved - lead_step_k;
  }
  void react(network::Reaction& reaction, int) override {
    used_k_ = reaction.view().potential(air_);
    const auto air = quantity::Temperature::of_si(used_k_);
    for (const LeadElement& element : leads_) {
      if (element.is_damaged) continue;
      const double r_ohm = element.lead->wire.resistance(air).si();
      reaction.network().law(element.handle).conductance_s =
          1.0 / std::max(r_ohm, part::least_resistance_ohm);
    }
    reaction.allow_long_step();
  }

 private:
  std::vector<LeadElement> leads_;
  NodeId air_;
  double used_k_;
};

}  // namespace

Surroundings::Surroundings(network::Network& network, const build::Build& build,
                           quantity::Temperature start)
    : network_(network), build_(build), start_(start) {
  ambient_ = network.add_thermal_node("ambient", ambient_heat_j_per_k, start.si());
  box_air_ = ambient_;
  if (const part::Box* box = build::first_of<part::Box>(build)) {
    box_air_ = network.add_thermal_node("box air", box->air_heat().si(), start.si());
  }
}

NodeId Surroundings::air_of(const part::Part& part) const {
  if (dynamic_cast<const part::Box*>(&part) != nullptr) return box_air_;
  return part.where == part::Whereabouts::Box ? box_air_ : ambient_;
}

NodeId Surroundings::of(const std::string& part) {
  const auto known = bodies_.find(part);
  if (known != bodies_.end()) return known->second;
  const part::Part* found = build_.find(part);
  if (found == nullptr) return {};
  const NodeId body = part::make_body(network_, *found, air_of(*found), start_);
  bodies_[part] = body;
  return body;
}

void Surroundings::add_behaviours(const std::vector<LeadElement>& leads) {
  network_.add_behaviour(std::make_unique<AmbientAir>(ambient_));
  std::vector<LeadElement> inside;
  std::vector<LeadElement> outside;
  for (const LeadElement& element : leads) {
    (element.lead->wire.where == part::Whereabouts::Box ? inside : outside).push_back(element);
  }
  network_.add_behaviour(std::make_unique<LeadWarmth>(std::move(inside), box_air_, start_.si()));
  network_.add_behaviour(std::make_unique<LeadWarmth>(std::move(outside), ambient_, start_.si()));
}

}  // namespace tideover::run
