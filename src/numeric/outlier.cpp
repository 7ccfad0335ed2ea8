#include "numeric/outlier.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

double median_of(std::vector<double>& numbers) {
  std::ranges::sort(numbers);
  const std::size_t half = numbers.size() / 2;
  return numbers.size() % 2 == 1 ? numbers[half] : 0.5 * (numbers[half - 1] + numbers[half]);
}

}  // namespace

Family family_of(std::vector<double> numbers) {
  TIDEOVER_EXPECT(!numbers.empty(), "a family of somebody");
  Family family;
  family.count = numbers.size();
  family.median = median_of(numbers);
  for (double& number : numbers) number = std::abs(number - family.median);
  const double mean =
      std::accumulate(numbers.begin(), numbers.end(), 0.0) / static_cast<double>(numbers.size());
  const double mad = median_of(numbers);
  family.scale = mad > 0.0 ? mad / 0.6745 : 1.2533 * mean;
  return family;
}

}  // namespace tideover::numeric
