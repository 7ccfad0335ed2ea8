/// What an element does with energy at one instant.
#pragma once

namespace tideover::network {

/// Powers of one element in watts, electrical side only. At every instant and for every element
///   power taken in at its electrical ports + supplied
///     = served + lost + d(stored)/dt,
/// and the sum of the powers at all ports of a network is zero (Tellegen), so over a run
///   sum of supplied = sum of served + sum of lost + change of stored.
struct Ledger {
  double supplied_w = 0.0;  ///< from outside: the mains behind an adapter
  double served_w = 0.0;    ///< the wanted effect: what a load takes
  double lost_w = 0.0;      ///< heat, self-discharge and charge that never comes back
};

}  // namespace tideover::network
