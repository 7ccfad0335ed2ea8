#include "part/thermal_cut_out/trip.hpp"

namespace tideover::part {

CutOutTrip::CutOutTrip(std::string part, network::Handle<WarmResistance> contact,
                       network::NodeId felt, TripTemperatures temperatures, bool is_one_shot)
    : part_(std::move(part)),
      contact_(contact),
      felt_(felt),
      temperatures_(temperatures),
      is_one_shot_(is_one_shot) {}

void CutOutTrip::conditions(const network::View& view, std::span<double> margins) const {
  const double felt_k = view.potential(felt_);
  if (!is_open_) {
    margins[0] = felt_k - temperatures_.opens_k;
  } else {
    margins[0] = is_one_shot_ ? network::never : temperatures_.resets_k - felt_k;
  }
}

void CutOutTrip::react(network::Reaction& reaction, int /*index*/) {
  double& conductance_s = reaction.network().law(contact_).conductance_s;
  if (is_open_) {
    conductance_s = closed_s_;
    reaction.mark(part_, "has cooled and closes again", network::Effect::Resumes);
  } else {
    closed_s_ = conductance_s;
    conductance_s = open_conductance_s;
    reaction.mark(part_, is_one_shot_ ? "opens for good: too hot" : "opens: too hot",
                  is_one_shot_ ? network::Effect::Breaks : network::Effect::Stops);
  }
  is_open_ = !is_open_;
}

}  // namespace tideover::part
