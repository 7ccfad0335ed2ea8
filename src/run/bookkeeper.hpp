/// Keeps the energy books of a run: integrates what every element does with energy.
#pragma once

#include <vector>

#include "hybrid/step.hpp"
#include "run/circuit.hpp"
#include "run/record.hpp"

namespace tideover::run {

class Bookkeeper {
 public:
  /// Opens the books at the present unknowns. `circuit` must outlive this object.
  Bookkeeper(const Circuit& circuit, std::span<const double> y);

  /// Adds one step: the same weights that carry the states integrate the powers. No event may set
  /// a state with energy in it: what came by decree would stand open in the books.
  void add(const hybrid::Step& step);

  /// Closes the books at the last unknowns.
  [[nodiscard]] Books close(std::span<const double> y) const;

 private:
  const Circuit& circuit_;
  double stored_before_j_;
  double leaked_j_ = 0.0;                 ///< from the nodes to the reference
  std::vector<network::Ledger> totals_;   ///< joules here, one an element
  std::vector<network::Ledger> instant_;  ///< watts
};

}  // namespace tideover::run
