/// What an element's law looks like.
///
/// A law is a small struct with its parameters and its present mode as plain numbers (names end
/// in the unit), and
///
///     static constexpr int ports = 2;    // electrical and thermal alike
///     static constexpr int states = 1;
///
///     template <class Real>
///     void equations(const Real* u, const Real* x, Real* flow, Real* rate) const;
///     void ledger(const double* u, const double* x, Ledger& books) const;
///     double stored(const double* x) const;   // J, a function of state; only if states > 0
///
/// `u[p]` potential at port p [V or K]; `x[s]` state s in the unit its maker chose; `flow[p]`
/// flow into the element at port p [A, or W of heat taken in: a warm part gives a negative one];
/// `rate[s]` = dx[s]/dt. `Real` is double or a Dual; a law uses smooth functions only
/// (numeric/smooth.hpp), never an `if` on u or x that makes a jump, and it has no memory and no
/// clock: whatever changes suddenly is a mode, set by a Behaviour at an event.
/// The first law of thermodynamics for one element stands in ledger.hpp; tests/identity checks
/// it for every law over random arguments.
#pragma once

#include <concepts>

#include "network/ledger.hpp"
#include "numeric/dual.hpp"

namespace tideover::network {

template <class L>
concept Law = requires(const L law, const double* u, double* out, Ledger& books) {
  { L::ports } -> std::convertible_to<int>;
  { L::states } -> std::convertible_to<int>;
  law.equations(u, u, out, out);
  law.ledger(u, u, books);
};

template <class L>
[[nodiscard]] double stored_energy(const L& law, const double* x) {
  if constexpr (requires { law.stored(x); }) {
    return law.stored(x);
  } else {
    return 0.0;
  }
}

}  // namespace tideover::network
