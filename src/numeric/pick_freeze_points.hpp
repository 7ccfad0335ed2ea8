/// Points for telling which inputs a result's variance comes from: two independent ones, A and B,
/// and mixtures of them, A with the inputs of one group taken from B. Inputs that belong together
/// (cells of one lot) form one group and change together.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "numeric/sobol_points.hpp"

namespace tideover::numeric {

class PickFreezePoints {
 public:
  /// Of each input its group; groups count from 0 and none is left out. Twice as many Sobol
  /// dimensions as inputs are used, `seed` scrambles them.
  PickFreezePoints(std::vector<int> group_of_input, std::uint64_t seed);

  [[nodiscard]] int inputs() const { return static_cast<int>(group_of_input_.size()); }
  [[nodiscard]] int groups() const { return groups_; }

  /// Fill `u`, as long as there are inputs, with coordinates of point `index`, each in (0, 1).
  void at_a(std::uint64_t index, std::span<double> u) const;
  void at_b(std::uint64_t index, std::span<double> u) const;
  void at_mixed(int group, std::uint64_t index, std::span<double> u) const;

 private:
  std::vector<int> group_of_input_;
  int groups_ = 0;
  SobolPoints points_;
};

}  // namespace tideover::numeric
