/// What a fan draws and the heat its air carries out of the box.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"

namespace tideover::part {

/// Ports: plus, minus, box air, ambient. Above the stall voltage, current and airflow go with a
/// power of the voltage through a known point; below it the fan stands still and draws no more than
/// what leaks through its electronics, the change rounded over +-10 % of the stall voltage. The
/// airflow V carries rho cp V (T_air - T_ambient) out of the box; all electrical power becomes heat
/// in the box air and is booked as lost.
struct FanDraw {
  static constexpr int ports = 4;
  static constexpr int states = 0;
  /// Of a fan that stands still: a megohm (assumed), so that one that has come off does not float.
  static constexpr double leak_s = 1e-6;
  double known_v = 12.0;
  double current_a = 0.1;  ///< at known_v
  double current_exponent = 1.1;
  double airflow_m3_per_s = 0.0;  ///< at known_v, through the openings of the box
  double airflow_exponent = 1.0;
  double stall_v = 5.0;
  double air_heat_j_per_m3_k = 1150.0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real v = u[0] - u[1];
    const Real turning = turning_at(v);
    const Real ratio = ratio_at(v);
    flow[0] = current_a * turning * numeric::power(ratio, current_exponent) +
              leak_s * (1.0 - turning) * v;
    flow[1] = -flow[0];
    const Real carried = air_heat_j_per_m3_k * airflow_m3_per_s * turning *
                         numeric::power(ratio, airflow_exponent) * (u[2] - u[3]);
    flow[2] = carried - flow[0] * v;
    flow[3] = -carried;
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double v = u[0] - u[1];
    books.lost_w += v * current_a_at(v);
  }
  /// [A] at `v` [V] between its terminals.
  [[nodiscard]] double current_a_at(double v) const {
    const double turning = turning_at(v);
    return current_a * turning * numeric::power(ratio_at(v), current_exponent) +
           leak_s * (1.0 - turning) * v;
  }
  /// [m3/s] at `v` [V].
  [[nodiscard]] double airflow_m3_per_s_at(double v) const {
    return airflow_m3_per_s * turning_at(v) * numeric::power(ratio_at(v), airflow_exponent);
  }

 private:
  template <class Real>
  [[nodiscard]] Real turning_at(const Real& v) const {
    return numeric::smooth_step(Real(v - stall_v), 0.1 * stall_v);
  }
  /// v / known_v where the fan turns; held above zero where it stands, so that a power of it
  /// exists.
  template <class Real>
  [[nodiscard]] Real ratio_at(const Real& v) const {
    return numeric::smooth_max(v, Real(0.5 * stall_v), 0.1 * stall_v) * (1.0 / known_v);
  }
};

}  // namespace tideover::part
