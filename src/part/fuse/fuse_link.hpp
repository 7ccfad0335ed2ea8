/// The law of a fuse element: a resistance that warms, and opens at an event.
#pragma once

#include <memory>

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/fuse/fuse_curve.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// Ports: a, b, the air around it [K]. State: heat, 0 cold, 1 the element parts (fuse_curve.hpp).
/// R = R0 (1 + k h). Rated current falls linearly with the air's temperature above 23 degC, the
/// reference of the gates. Its heat goes into the air at once: a fuse is light.
struct FuseLink {
  static constexpr int ports = 3;
  static constexpr int states = 1;
  std::shared_ptr<const FuseCurve> curve;
  double rated_a = 1.0;
  double cold_ohm = 0.1;
  double warm_share = 0.4;        ///< k: how much more it has just before it parts
  double derating_per_k = 0.002;  ///< share of rated current lost per kelvin
  bool is_blown = false;

  static constexpr double reference_k = 296.15;  // 23 degC, IEC 60127-1

  template <class Real>
  void equations(const Real* u, const Real* x, Real* flow, Real* rate) const {
    const Real v = u[0] - u[1];
    flow[0] =
        is_blown ? Real(open_conductance_s * v) : Real(v / (cold_ohm * (1.0 + warm_share * x[0])));
    flow[1] = -flow[0];
    flow[2] = -(flow[0] * v);
    const Real share = flow[0] / (rated_a * rated_share(u[2]));
    const Real squared = share * share;
    rate[0] = curve->heating(squared) - curve->cooling(squared) * x[0];
  }
  void ledger(const double* u, const double* x, network::Ledger& books) const {
    books.lost_w += (u[0] - u[1]) * current_a(u[0] - u[1], x[0]);
  }
  [[nodiscard]] double current_a(double v, double heat) const {
    return is_blown ? open_conductance_s * v : v / (cold_ohm * (1.0 + warm_share * heat));
  }
  /// Rated current at this air temperature as a share of that at 23 degC; between 0.2 and 1.2.
  template <class Real>
  [[nodiscard]] Real rated_share(const Real& air_k) const {
    const Real linear = 1.0 - derating_per_k * (air_k - reference_k);
    return numeric::smooth_max(numeric::smooth_min(linear, Real(1.2), 0.02), Real(0.2), 0.02);
  }
};

}  // namespace tideover::part
