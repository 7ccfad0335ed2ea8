#include "part/diode/junction_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "part/junction_law.hpp"

namespace tideover::part {

using quantity::Ampere;
using quantity::Ohm;

namespace {

/// n VT and Rs as the points have them.
struct Slopes {
  double n_vt_v;
  double series_ohm;
};

base::Problem refusal(std::string text) {
  return {{},
          std::move(text),
          "read two or three points off one measured (typical) curve, not off a table of limits"};
}

double log_current(const ForwardPoint& point, double saturation_a) {
  return std::log(point.current.si() + saturation_a);
}

/// Differences between neighbouring points: n VT d(ln i) + Rs d(i) = d(v).
Slopes slopes_of(const std::vector<ForwardPoint>& points, Slopes slopes, double saturation_a) {
  if (points.size() < 2) return slopes;
  const auto step = [&](std::size_t k) {
    return std::array<double, 3>{
        log_current(points[k + 1], saturation_a) - log_current(points[k], saturation_a),
        (points[k + 1].current - points[k].current).si(),
        (points[k + 1].voltage - points[k].voltage).si()};
  };
  const auto [log1, di1, dv1] = step(0);
  if (points.size() == 2) {
    slopes.series_ohm = (dv1 - slopes.n_vt_v * log1) / di1;
    return slopes;
  }
  const auto [log2, di2, dv2] = step(1);
  const double determinant = log1 * di2 - log2 * di1;
  return {(dv1 * di2 - dv2 * di1) / determinant, (log1 * dv2 - log2 * dv1) / determinant};
}

bool rises(const std::vector<ForwardPoint>& points) {
  if (points.front().current.si() <= 0.0 || points.front().voltage.si() <= 0.0) return false;
  for (std::size_t k = 1; k < points.size(); ++k) {
    if (points[k].voltage <= points[k - 1].voltage) return false;
    if (points[k].current.si() <= 1.001 * points[k - 1].current.si()) return false;
  }
  return true;
}

}  // namespace

base::Result<JunctionFit> fit_junction(std::vector<ForwardPoint> points,
                                       quantity::Temperature temperature, double ideality,
                                       Ohm series) {
  std::ranges::sort(points, {}, &ForwardPoint::current);
  if (points.empty() || points.size() > 3) return refusal("a fit takes one to three points");
  if (!rises(points)) return refusal("voltage must rise with current from point to point");
  const double vt_v = boltzmann_over_charge_v_per_k * temperature.si();
  Slopes slopes{ideality * vt_v, series.si()};
  double saturation_a = 0.0;
  // Is is small beside the currents; two rounds already settle its share in ln(i + Is).
  for (int round = 0; round < 8; ++round) {
    slopes = slopes_of(points, slopes, saturation_a);
    const double n = slopes.n_vt_v / vt_v;
    if (n < least_ideality || n > greatest_ideality) {
      return refusal(fmt::format(
          "these points ask for an ideality of {:.2f}; a junction has one between {} and {}",
          std::round(100.0 * n) / 100.0 + 0.0,  // no minus before a nought
          least_ideality, greatest_ideality));
    }
    if (slopes.series_ohm < 0.0) {
      return refusal(fmt::format("these points ask for a series resistance of {:.1f} mOhm",
                                 1e3 * slopes.series_ohm));
    }
    const double junction_v = points[0].voltage.si() - slopes.series_ohm * points[0].current.si();
    if (junction_v <= 0.0) {
      return refusal("the series resistance these points ask for leaves the junction no voltage");
    }
    saturation_a = points[0].current.si() / std::expm1(junction_v / slopes.n_vt_v);
  }
  return JunctionFit{Ampere::of_si(saturation_a), slopes.n_vt_v / vt_v,
                     Ohm::of_si(slopes.series_ohm)};
}

}  // namespace tideover::part
