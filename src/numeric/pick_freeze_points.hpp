/// Points for telling which inputs a result's variance comes from: two independent ones, A and B,
/// and mixtures of them, A with the inputs of one group taken from B. An input may be in several
/// groups: by itself, and with all that come from the same place.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "numeric/sobol_points.hpp"

namespace tideover::numeric {

class PickFreezePoints {
 public:
  /// Each group lists its inputs, counted from 0. Twice as many Sobol dimensions as inputs are
  /// used, `seed` scrambles them.
  PickFreezePoints(int inputs, std::vector<std::vector<int>> groups, std::uint64_t seed);

  [[nodiscard]] int inputs() const { return points_.dimensions() / 2; }
  [[nodiscard]] int groups() const { return static_cast<int>(groups_.size()); }

  /// Fill `u`, as long as there are inputs, with coordinates of point `index`, each in (0, 1).
  void at_a(std::uint64_t index, std::span<double> u) const;
  void at_b(std::uint64_t index, std::span<double> u) const;
  void at_mixed(int group, std::uint64_t index, std::span<double> u) const;

 private:
  [[nodiscard]] std::vector<double> both(std::uint64_t index) const;

  std::vector<std::vector<int>> groups_;
  SobolPoints points_;
};

}  // namespace tideover::numeric
