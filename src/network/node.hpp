/// Names of the unknowns of a network.
#pragma once

#include <compare>

namespace tideover::network {

/// A point where ports meet: a potential and a balance of flows. Electrical nodes hold a voltage
/// [V] against the common reference and balance currents [A]; thermal nodes hold a temperature
/// [K] and balance heat flows [W].
struct NodeId {
  int index = -1;
  friend constexpr auto operator<=>(const NodeId&, const NodeId&) = default;
};

/// The reference of all electrical potentials: 0 V, takes any current.
inline constexpr NodeId reference_node{-1};

/// One state of one element (a charge, a coil current, a temperature, ...).
struct StateId {
  int index = -1;
  friend constexpr auto operator<=>(const StateId&, const StateId&) = default;
};

enum class Nature { Electrical, Thermal };

}  // namespace tideover::network
