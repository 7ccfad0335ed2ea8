#include "numeric/pursuit.hpp"

#include <cmath>
#include <numeric>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

constexpr int most_steps = 400;
/// A squared correlation of more than this over the number of draws comes by chance in one of two
/// thousand inputs: 3.5 standard errors.
constexpr double beyond_chance = 12.0;

struct Along {
  double product = 0.0;  ///< of an input with what is left
  double square = 0.0;   ///< of the input
  [[nodiscard]] double gain() const { return square > 0.0 ? product * product / square : 0.0; }
};

Along along(const std::vector<std::vector<double>>& draws, std::span<const double> left,
            std::size_t input) {
  Along found;
  for (std::size_t k = 0; k < left.size(); ++k) {
    found.product += draws[k][input] * left[k];
    found.square += draws[k][input] * draws[k][input];
  }
  return found;
}

double square_sum(std::span<const double> numbers) {
  return std::inner_product(numbers.begin(), numbers.end(), numbers.begin(), 0.0);
}

}  // namespace

double Pursuit::at(std::span<const double> inputs) const {
  TIDEOVER_EXPECT(inputs.size() == coefficients.size(), "as many inputs as coefficients");
  return std::inner_product(inputs.begin(), inputs.end(), coefficients.begin(), mean);
}

Pursuit pursue(const std::vector<std::vector<double>>& draws, std::span<const double> results) {
  TIDEOVER_EXPECT(draws.size() == results.size(), "a row of inputs for each result");
  if (results.empty()) return {};
  Pursuit fit;
  const auto count = static_cast<double>(results.size());
  fit.mean = std::accumulate(results.begin(), results.end(), 0.0) / count;
  fit.coefficients.assign(draws.front().size(), 0.0);
  std::vector<double> left(results.begin(), results.end());
  for (double& value : left) value -= fit.mean;
  for (int step = 0; step < most_steps; ++step) {
    Along best;
    std::size_t input = 0;
    for (std::size_t k = 0; k < fit.coefficients.size(); ++k) {
      const Along one = along(draws, left, k);
      if (one.gain() <= best.gain()) continue;
      best = one;
      input = k;
    }
    if (best.gain() * count <= beyond_chance * square_sum(left)) return fit;
    const double more = best.product / best.square;
    fit.coefficients[input] += more;
    for (std::size_t k = 0; k < left.size(); ++k) left[k] -= more * draws[k][input];
  }
  return fit;
}

}  // namespace tideover::numeric
