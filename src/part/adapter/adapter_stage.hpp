/// The electronics of a mains adapter with its output capacitor: what it gives, what it takes from
/// the mains, what it has stored.
#pragma once

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "numeric/table.hpp"
#include "part/capacitor_law.hpp"
#include "part/soft_start.hpp"

namespace tideover::part {

/// Ports: output, minus, body (thermal). States: usable stored energy [J], share of the set voltage
/// reached by the soft start, voltage of the output capacitor.
///
/// Regulated current, in amperes at capacitor voltage v (the state and not the terminal, so that
/// the stiff regulation makes no algebraic loop through the capacitor's series resistance):
///     i = min((V set - w) / R source, limit(v) share(T)),   w = v + (1 - rise) V set,   i >= 0
/// or, where a curve has been measured, i = curve(w) share(T). The limit falls straight from its
/// full value at the set voltage to `fold_share` of it into a short circuit (1: constant current).
/// `share(T)` is 1 up to the body temperature `derate_from_k` and falls by `derate_per_k` beyond.
/// Corners are rounded over 2 % of the limit and exact elsewhere.
/// Energy: input power = v i + loss, loss = idle + linear i + square i^2, from the mains while it
/// is there, else from the store. The store counts from the level at which the regulator stops.
struct AdapterStage {
  static constexpr int ports = 3;
  static constexpr int states = 3;
  /// Output rectifiers conduct when the output is driven below its minus: silicon, from memory.
  static constexpr double rectifier_drop_v = 0.7;
  static constexpr double rectifier_ohm = 0.05;

  double set_v = 12.0;
  double source_ohm = 0.02;
  double limit_a = 1.0;
  double fold_share = 1.0;
  double derate_from_k = 343.0;
  double derate_per_k = 0.025;
  double least_share = 0.1;
  double idle_w = 0.1;
  double linear_v = 0.0;
  double square_ohm = 0.0;
  double full_j = 0.5;
  double refill_per_s = 20.0;
  double rise_s = 0.02;
  double mains = 1.0;     ///< 1 while the mains is there
  double running = 1.0;   ///< 1 while the regulator works
  Capacitance capacitor;  ///< at the output, with its bleeder
  numeric::Table curve;   ///< A over V at the output capacitor; empty: the label counts

  /// Share of the rated current that is left at body temperature `t` [K].
  template <class Real>
  [[nodiscard]] Real rating_share(const Real& t) const {
    const Real hot = numeric::smooth_positive(Real(t - derate_from_k), 1.0);
    return numeric::smooth_max(Real(1.0 - derate_per_k * hot), Real(least_share), 0.02);
  }

  /// Current out of the regulator [A] at output voltage `v` [V].
  template <class Real>
  [[nodiscard]] Real regulated_a(const Real& v, const Real& rise, const Real& t) const {
    const Real w = v + (1.0 - rise) * set_v;
    const Real share = rating_share(t);
    if (!curve.is_empty()) {
      return running * numeric::smooth_positive(Real(curve(w) * share), 0.02 * limit_a);
    }
    const Real height = numeric::smooth_positive(v, 0.02 * set_v) * (1.0 / set_v);
    const Real limit = (limit_a * share) * (fold_share + (1.0 - fold_share) * height);
    const Real wanted = (set_v - w) * (1.0 / source_ohm);
    const Real given = numeric::smooth_min(wanted, limit, 0.02 * limit_a * fold_share);
    return running * numeric::smooth_positive(given, 0.02 * limit_a);
  }

  template <class Real>
  void equations(const Real* u, const Real* x, Real* flow, Real* rate) const {
    const Balance<Real> b = balance(u, x);
    flow[0] = -b.out_a;
    flow[1] = b.out_a;
    flow[2] = -b.heat_w;
    rate[0] = mains * refill_per_s * (full_j - x[0]) - (1.0 - mains) * b.input_w;
    rate[1] = running * soft_start_rate(x[1], rise_s);
    rate[2] = b.capacitor_v_per_s;
  }
  void ledger(const double* u, const double* x, network::Ledger& books) const {
    const Balance<double> b = balance(u, x);
    books.supplied_w += mains * (b.input_w + refill_per_s * (full_j - x[0]));
    books.lost_w += b.heat_w;
  }
  [[nodiscard]] double stored(const double* x) const { return x[0] + capacitor.stored(x + 2); }

 private:
  template <class Real>
  struct Balance {
    Real out_a;
    Real input_w;
    Real heat_w;
    Real capacitor_v_per_s;
  };
  template <class Real>
  [[nodiscard]] Balance<Real> balance(const Real* u, const Real* x) const {
    const Real v = u[0] - u[1];
    const Real i = regulated_a(x[2], x[1], u[2]);
    const Real across[2] = {v, Real(0.0)};
    Real charging[2];
    Real rise[1];
    capacitor.equations(across, x + 2, charging, rise);
    const Real reversed = numeric::smooth_positive(Real(-rectifier_drop_v - v), 0.1);
    const Real out = i - charging[0] + reversed * (1.0 / rectifier_ohm);
    const double awake = mains > running ? mains : running;
    const Real input =
        numeric::smooth_positive(v, 0.05) * i + awake * idle_w + i * (linear_v + square_ohm * i);
    const Real storing = (capacitor.capacitance_f * x[2]) * rise[0];
    return {out, input, input - v * out - storing, rise[0]};
  }
};

}  // namespace tideover::part
