/// The averaged law of a converter with its output capacitor: step-down, step-up, either, or
/// linear.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/capacitor_law.hpp"
#include "part/soft_start.hpp"

namespace tideover::part {

/// Ports: input plus and minus, output plus and minus, body (thermal). States: share of the set
/// voltage reached by the soft start; voltage of the output capacitor.
///
/// The current into the output is the least of four at capacitor voltage v, and never negative.
/// It looks at the capacitor's state and not at the terminal so that the stiff regulation makes no
/// algebraic loop through the capacitor's series resistance; at rest both are the same.
///     regulation       (V set rise - v) / R out
///     current limit    I limit
///     what the topology can reach at duty limit (drop-out)
///         step-down    (G v_in - V drop - v) / R path
///         step-up      (g v_in - V drop - v) / (R path g^2),  g = 2 v / v_in within its bounds:
///                      the gain of an inductor with resistance, M = g / (1 + R g^2 / R load),
///                      Erickson and Maksimovic ch. 3 (from memory)
///     input limit      the current at which output and losses take I in,max v_in
/// Input current by power balance: idle draw + (v i + linear i + square i^2) / v_in; a linear
/// regulator passes its output current on instead. Corners are rounded over 2 % of the current
/// limit and exact elsewhere. Below `floor_v`, far under any lockout, it passes nothing.
struct PowerStage {
  static constexpr int ports = 5;
  static constexpr int states = 2;
  /// Body diodes under reverse polarity: one at the output, two in series at the input; silicon,
  /// from memory.
  static constexpr double diode_drop_v = 0.7;
  static constexpr double diode_ohm = 0.05;

  double set_v = 5.0;
  double output_ohm = 0.01;
  double limit_a = 1.0;
  double input_limit_a = 5.0;
  double highest_gain = 0.95;
  double lowest_gain = 0.0;
  double path_ohm = 0.1;
  double drop_v = 0.0;
  double draw_a = 0.0;  ///< idle or off draw at its input, whichever holds now
  double linear_v = 0.3;
  double square_ohm = 0.05;
  double floor_v = 1.0;
  double rise_s = 2e-3;
  double running = 1.0;   ///< 1 while it converts
  bool raises = false;    ///< step-up or step-up-down
  bool passes = false;    ///< linear
  Capacitance capacitor;  ///< at the output, with its leak

  /// Current out of the converter [A] at input and output voltage [V], soft start at `rise`.
  template <class Real>
  [[nodiscard]] Real output_a(const Real& v_in, const Real& v_out, const Real& rise) const {
    const double width = 0.02 * limit_a;
    Real i = (set_v * rise - v_out) * (1.0 / output_ohm);
    i = numeric::smooth_min(i, Real(limit_a), width);
    i = numeric::smooth_min(i, reachable_a(v_in, v_out), width);
    i = numeric::smooth_min(i, affordable_a(v_in, v_out), width);
    i = numeric::smooth_positive(i, width);
    return running * i * numeric::smooth_step(Real(v_in - 1.5 * floor_v), 0.35 * floor_v);
  }

  template <class Real>
  void equations(const Real* u, const Real* x, Real* flow, Real* rate) const {
    const Balance<Real> b = balance(u, x);
    flow[0] = b.in_a;
    flow[1] = -b.in_a;
    flow[2] = -b.out_a;
    flow[3] = b.out_a;
    flow[4] = -b.heat_w;
    rate[0] = running * soft_start_rate(x[0], rise_s);
    rate[1] = b.capacitor_v_per_s;
  }
  void ledger(const double* u, const double* x, network::Ledger& books) const {
    books.lost_w += balance(u, x).heat_w;
  }
  [[nodiscard]] double stored(const double* x) const { return capacitor.stored(x + 1); }

  /// Most current [A] the topology reaches at these voltages; negative beyond drop-out.
  template <class Real>
  [[nodiscard]] Real reachable_a(const Real& v_in, const Real& v_out) const {
    if (!raises) return (highest_gain * v_in - drop_v - v_out) * (1.0 / path_ohm);
    const Real held = numeric::smooth_max(v_in, Real(floor_v), 0.1 * floor_v);
    Real g = 2.0 * (v_out + drop_v) / held;
    g = numeric::smooth_max(g, Real(lowest_gain), 0.1 * lowest_gain);
    g = numeric::smooth_min(g, Real(highest_gain), 0.05 * highest_gain);
    return (g * v_in - drop_v - v_out) / (path_ohm * g * g);
  }

 private:
  template <class Real>
  struct Balance {
    Real in_a;
    Real out_a;
    Real heat_w;
    Real capacitor_v_per_s;
  };

  /// Current [A] at which output and losses take all that the input limit lets in: the positive
  /// root of square i^2 + (v + linear) i = I in,max v_in.
  template <class Real>
  [[nodiscard]] Real affordable_a(const Real& v_in, const Real& v_out) const {
    if (passes) return Real(input_limit_a);
    const Real power = input_limit_a * numeric::smooth_max(v_in, Real(floor_v), 0.1 * floor_v);
    const Real b = numeric::smooth_positive(v_out, 0.05) + (linear_v + 1e-3);
    return 2.0 * power / (b + numeric::square_root(Real(b * b + 4.0 * square_ohm * power)));
  }

  template <class Real>
  [[nodiscard]] Balance<Real> balance(const Real* u, const Real* x) const {
    const Real v_in = u[0] - u[1];
    const Real v_out = u[2] - u[3];
    const Real i = output_a(v_in, x[1], x[0]);
    const Real in = input_a(v_in, v_out, i);
    const Real across[2] = {v_out, Real(0.0)};
    Real charging[2];
    Real rise[1];
    capacitor.equations(across, x + 1, charging, rise);
    const Real reversed = numeric::smooth_positive(Real(-diode_drop_v - v_out), 0.1);
    const Real out = i - charging[0] + reversed * (1.0 / diode_ohm);
    const Real storing = (capacitor.capacitance_f * x[1]) * rise[0];
    return {in, out, v_in * in - v_out * out - storing, rise[0]};
  }

  template <class Real>
  [[nodiscard]] Real input_a(const Real& v_in, const Real& v_out, const Real& i) const {
    const Real held = numeric::smooth_max(v_in, Real(floor_v), 0.1 * floor_v);
    const Real reversed = numeric::smooth_positive(Real(-2.0 * diode_drop_v - v_in), 0.1);
    const Real standing = draw_a * v_in / held - reversed * (1.0 / diode_ohm);
    if (passes) return standing + i;
    const Real v_given = numeric::smooth_positive(v_out, 0.05);
    return standing + i * (v_given + linear_v + square_ohm * i) / held;
  }
};

}  // namespace tideover::part
