/// The first law of thermodynamics asked of one element's law at one instant.
#pragma once

#include <array>
#include <cmath>

#include "network/law.hpp"

namespace tideover::tests {

/// Power in at the electrical ports + supplied - served - lost - d(stored)/dt, in watts; zero for
/// a sound law. `is_thermal[p]` marks ports that carry heat. The rate of stored energy comes from
/// a central difference of stored(x), good to about 1e-6 relative.
template <network::Law L>
[[nodiscard]] double imbalance_w(const L& law, const std::array<double, L::ports + 1>& u,
                                 const std::array<double, L::states + 1>& x,
                                 const std::array<bool, L::ports + 1>& is_thermal) {
  std::array<double, L::ports + 1> flow{};
  std::array<double, L::states + 1> rate{};
  law.equations(u.data(), x.data(), flow.data(), rate.data());
  network::Ledger books;
  law.ledger(u.data(), x.data(), books);
  double sum = books.supplied_w - books.served_w - books.lost_w;
  for (std::size_t p = 0; p < L::ports; ++p) {
    if (!is_thermal[p]) sum += u[p] * flow[p];
  }
  for (std::size_t s = 0; s < L::states; ++s) {
    auto up = x;
    auto down = x;
    const double step = 1e-5 * std::max(1.0, std::abs(x[s]));
    up[s] += step;
    down[s] -= step;
    sum -= rate[s] *
           (network::stored_energy(law, up.data()) - network::stored_energy(law, down.data())) /
           (2.0 * step);
  }
  return sum;
}

/// Largest difference between the derivatives a law yields by Dual numbers and central
/// differences of its values, relative to the larger of the two and `floor`.
template <network::Law L>
[[nodiscard]] double derivative_error(const L& law, const std::array<double, L::ports + 1>& u,
                                      const std::array<double, L::states + 1>& x,
                                      double step = 1e-6, double floor = 1e-3) {
  constexpr int width = L::ports + L::states;
  using Number = numeric::Dual<width>;
  std::array<Number, static_cast<std::size_t>(width)> in{};
  std::array<Number, static_cast<std::size_t>(width)> out{};
  std::array<double, static_cast<std::size_t>(width)> point{};
  for (std::size_t k = 0; k < width; ++k) {
    point[k] = k < L::ports ? u[k] : x[k - L::ports];
    in[k] = Number::input(point[k], static_cast<int>(k));
  }
  law.equations(in.data(), in.data() + L::ports, out.data(), out.data() + L::ports);
  double worst = 0.0;
  for (std::size_t k = 0; k < width; ++k) {
    auto up = point;
    auto down = point;
    const double h = step * std::max(1.0, std::abs(point[k]));
    up[k] += h;
    down[k] -= h;
    std::array<double, static_cast<std::size_t>(width)> high{};
    std::array<double, static_cast<std::size_t>(width)> low{};
    law.equations(up.data(), up.data() + L::ports, high.data(), high.data() + L::ports);
    law.equations(down.data(), down.data() + L::ports, low.data(), low.data() + L::ports);
    for (std::size_t row = 0; row < width; ++row) {
      const double difference = (high[row] - low[row]) / (2.0 * h);
      const double slope = out[row].slope[k];
      const double size = std::max({std::abs(difference), std::abs(slope), floor});
      worst = std::max(worst, std::abs(difference - slope) / size);
    }
  }
  return worst;
}

}  // namespace tideover::tests
