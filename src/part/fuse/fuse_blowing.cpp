#include "part/fuse/fuse_blowing.hpp"

#include <cmath>

namespace tideover::part {

FuseBlowing::FuseBlowing(std::string part, network::Handle<FuseLink> link, network::StateId heat,
                         network::NodeId a, network::NodeId b, std::optional<double> breaks_a,
                         bool is_blown)
    : part_(std::move(part)),
      link_(link),
      heat_(heat),
      a_(a),
      b_(b),
      breaks_a_(breaks_a),
      is_blown_(is_blown) {}

void FuseBlowing::conditions(const network::View& view, std::span<double> margins) const {
  margins[0] = is_blown_ ? network::never : view.state(heat_) - 1.0;
}

void FuseBlowing::react(network::Reaction& reaction, int /*index*/) {
  const auto view = reaction.view();
  FuseLink& link = reaction.network().law(link_);
  const double current_a = std::abs(link.current_a(view.between(a_, b_), view.state(heat_)));
  is_blown_ = true;
  link.is_blown = true;
  reaction.mark(
      part_,
      breaks_a_ && current_a > *breaks_a_ ? "blows on more current than it can break" : "blows",
      network::Effect::Breaks);
}

}  // namespace tideover::part
