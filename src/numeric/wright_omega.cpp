#include "numeric/wright_omega.hpp"

namespace tideover::numeric {

namespace {

// Below this e^x is the answer to the last digit: the next term of its series is e^x times smaller.
constexpr double exponential_below = -37.0;
// A round leaves about the fourth power of this residual.
constexpr double good_for_last_round = 1e-4;

double first_guess(double x) {
  if (x < -1.0) return std::exp(x);
  if (x < 4.0) return 1.0 + (x - 1.0) * (0.5 + (x - 1.0) / 16.0);  // series about omega(1) = 1
  return x - std::log(x);
}

}  // namespace

double wright_omega_value(double x) {
  if (x < exponential_below) return std::exp(x);
  double w = first_guess(x);
  // Two rounds take the worst guess (a third off, at -1) to the last digit, a third is insurance.
  for (int round = 0; round < 3; ++round) {
    const double r = x - w - std::log(w);
    const double w1 = w + 1.0;
    const double t = 2.0 * w1 * (w1 + 2.0 / 3.0 * r);
    w *= 1.0 + r / w1 * (t - r) / (t - 2.0 * r);
    if (std::abs(r) < good_for_last_round) break;
  }
  return w;
}

}  // namespace tideover::numeric
