// How a pack fails. Of its groups the poorest is the one that fails: it is the likeliest, and what
// follows is worst there.
#include <algorithm>

#include "part/pack/pack.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// A cell shorted inside by a crushed or pierced separator, its own resistance included. Assumed.
constexpr Ohm short_inside = Ohm::of_si(0.1);
/// A weld that holds by one of its spots, or a strip that has cracked. Assumed.
constexpr Ohm poor_weld = Ohm::of_si(0.1);
/// What is left of a weak group: a third under the others, well past a worn-out fifth. Assumed.
constexpr double weak_share = 2.0 / 3.0;
/// How far a group stands under the others: two years in which its cells lost half a percent a
/// month more. Assumed.
constexpr Ratio behind = Ratio::of_si(0.1);
/// Self-discharge of a damaged cell over that of a good one. Assumed.
constexpr double leaks_by = 10.0;

}  // namespace

int Pack::poorest_group() const {
  int poorest = 1;
  for (int k = 2; k <= series; ++k) {
    const auto held = [this](int number) {
      return group_capacity(number).si() * start_charge(number).si();
    };
    if (held(k) < held(poorest)) poorest = k;
  }
  return poorest;
}

GroupState& Pack::group_state(int number) {
  groups.resize(static_cast<std::size_t>(series));
  return groups[static_cast<std::size_t>(number - 1)];
}

std::vector<FailureMode> Pack::failure_modes() const {
  const int poorest = poorest_group();
  std::vector<FailureMode> modes{
      {"group shorted",
       "one cell is a short circuit inside, and its group with it: it gets very hot",
       {bridged(terminal_above(poorest), terminal_below(poorest), short_inside)}},
      {"link open", "a link between cells has come off: the pack is broken", {opened("plus")}},
      {"weld poor", "a link holds by one spot and gets hot", {resistive("plus", poor_weld)}},
      {"pack reversed", "its plus and its minus are swapped", {exchanged("plus", "minus")}}};
  add_group_failures(poorest, modes);
  return modes;
}

void Pack::add_group_failures(int number, std::vector<FailureMode>& modes) const {
  const auto failing = [number](auto change) {
    return altering<Pack>([number, change](Pack& pack) { change(pack, pack.group_state(number)); });
  };
  modes.push_back({"weak group",
                   "one group holds a third less than stated",
                   {},
                   failing([](const Pack& pack, GroupState& group) {
                     if (!group.capacity.given) {
                       put(group.capacity,
                           static_cast<double>(pack.parallel) * pack.cell.capacity.nominal());
                     }
                     scale(group.capacity, weak_share);
                   })});
  modes.push_back({"group leaks",
                   "one group discharges itself ten times as fast as stated",
                   {},
                   failing([](const Pack&, GroupState& group) { group.leak_factor *= leaks_by; })});
  if (series > 1) {
    modes.push_back({"group behind",
                     "one group stands a tenth lower in charge than the others",
                     {},
                     failing([number](const Pack& pack, GroupState& group) {
                       put(group.charge, std::max(pack.start_charge(number) - behind, Ratio{}));
                     })});
  }
  if (parallel > 1) {
    modes.push_back({"cell open",
                     "one cell of one group has come off: its neighbours do its work",
                     {},
                     failing([](const Pack&, GroupState& group) { ++group.open_cells; })});
  }
}

}  // namespace tideover::part
