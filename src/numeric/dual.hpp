/// Forward derivatives: a number carried together with its partial derivatives, so that a law is
/// written once and its Jacobian follows from the same lines.
/// Source: Griewank and Walther, Evaluating Derivatives, SIAM 2008, ch. 3 (from memory).
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace tideover::numeric {

/// `value` and d(value)/d(input k) for k < Inputs.
template <int Inputs>
struct Dual {
  double value = 0.0;
  std::array<double, static_cast<std::size_t>(Inputs)> slope{};

  Dual() = default;
  Dual(double constant) : value(constant) {}  // NOLINT(google-explicit-constructor)

  [[nodiscard]] static Dual input(double value, int index) {
    Dual result(value);
    result.slope[static_cast<std::size_t>(index)] = 1.0;
    return result;
  }
};

[[nodiscard]] inline double value_of(double x) { return x; }
template <int N>
[[nodiscard]] double value_of(const Dual<N>& x) {
  return x.value;
}

/// Chain rule: value f(x), derivative f'(x).
[[nodiscard]] inline double chained(double /*x*/, double value, double /*slope*/) { return value; }
template <int N>
[[nodiscard]] Dual<N> chained(const Dual<N>& x, double value, double slope) {
  Dual<N> result(value);
  for (std::size_t k = 0; k < N; ++k) result.slope[k] = slope * x.slope[k];
  return result;
}

template <int N>
[[nodiscard]] Dual<N> operator-(const Dual<N>& a) {
  return chained(a, -a.value, -1.0);
}
template <int N>
[[nodiscard]] Dual<N> operator+(const Dual<N>& a, const Dual<N>& b) {
  Dual<N> result(a.value + b.value);
  for (std::size_t k = 0; k < N; ++k) result.slope[k] = a.slope[k] + b.slope[k];
  return result;
}
template <int N>
[[nodiscard]] Dual<N> operator-(const Dual<N>& a, const Dual<N>& b) {
  Dual<N> result(a.value - b.value);
  for (std::size_t k = 0; k < N; ++k) result.slope[k] = a.slope[k] - b.slope[k];
  return result;
}
template <int N>
[[nodiscard]] Dual<N> operator*(const Dual<N>& a, const Dual<N>& b) {
  Dual<N> result(a.value * b.value);
  for (std::size_t k = 0; k < N; ++k) {
    result.slope[k] = a.slope[k] * b.value + a.value * b.slope[k];
  }
  return result;
}
template <int N>
[[nodiscard]] Dual<N> operator/(const Dual<N>& a, const Dual<N>& b) {
  const double inverse = 1.0 / b.value;
  Dual<N> result(a.value * inverse);
  for (std::size_t k = 0; k < N; ++k) {
    result.slope[k] = (a.slope[k] - result.value * b.slope[k]) * inverse;
  }
  return result;
}

template <int N>
[[nodiscard]] Dual<N> operator+(Dual<N> a, double b) {
  a.value += b;
  return a;
}
template <int N>
[[nodiscard]] Dual<N> operator+(double a, const Dual<N>& b) {
  return b + a;
}
template <int N>
[[nodiscard]] Dual<N> operator-(Dual<N> a, double b) {
  a.value -= b;
  return a;
}
template <int N>
[[nodiscard]] Dual<N> operator-(double a, const Dual<N>& b) {
  return -b + a;
}
template <int N>
[[nodiscard]] Dual<N> operator*(const Dual<N>& a, double b) {
  return chained(a, a.value * b, b);
}
template <int N>
[[nodiscard]] Dual<N> operator*(double a, const Dual<N>& b) {
  return b * a;
}
template <int N>
[[nodiscard]] Dual<N> operator/(const Dual<N>& a, double b) {
  return a * (1.0 / b);
}
template <int N>
[[nodiscard]] Dual<N> operator/(double a, const Dual<N>& b) {
  const double quotient = a / b.value;
  return chained(b, quotient, -quotient / b.value);
}

template <class Real>
[[nodiscard]] Real exponential(const Real& x) {
  const double e = std::exp(value_of(x));
  return chained(x, e, e);
}
template <class Real>
[[nodiscard]] Real logarithm(const Real& x) {
  return chained(x, std::log(value_of(x)), 1.0 / value_of(x));
}
template <class Real>
[[nodiscard]] Real square_root(const Real& x) {
  const double root = std::sqrt(value_of(x));
  return chained(x, root, 0.5 / root);
}
/// x^p for x > 0.
template <class Real>
[[nodiscard]] Real power(const Real& x, double exponent) {
  const double raised = std::pow(value_of(x), exponent);
  return chained(x, raised, exponent * raised / value_of(x));
}

}  // namespace tideover::numeric
