#include "cell/fit_result.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cell/fit_heat.hpp"
#include "cell/follow_test.hpp"
#include "cell/run_down.hpp"
#include "quantity/show.hpp"
#include "quantity/spread.hpp"

namespace tideover::cell {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// A value is told by the logs if its error is below this share of what the class left open.
constexpr double told_share = 0.6;
/// Resistances that must not be crossed: a cell below has none.
constexpr double least_ohm = 1e-5;

base::Problem implausible(const std::string& text) {
  return {{},
          "the fit is no cell: " + text,
          "Look at what the steps say happened, and leave out logs of another cell, of several "
          "cells in series, or with another sign of the current."};
}

class Result {
 public:
  Result(const CellClass& cell_class, const std::vector<FitTest>& tests, const FitLayout& layout,
         const numeric::LeastSquaresFit& fit)
      : class_(cell_class), tests_(tests), layout_(layout), fit_(fit) {
    out_.class_name = cell_class.name;
    out_.cell = layout.cell_of(fit.parameters);
  }

  base::Result<FittedCell> whole(const std::string& name, const FitReport& report) {
    out_.name = name;
    if (const auto wrong = what_is_wrong()) return *wrong;
    mark_curves();
    mark_scalars();
    follow_tests();
    add_heat();
    add_rated();
    for (const FitReport::LeftOut& left : report.left_out) add_left_out(left);
    add_remarks();
    return std::move(out_);
  }

 private:
  [[nodiscard]] double error(int k) const {
    return fit_.standard_errors[static_cast<std::size_t>(k)];
  }
  [[nodiscard]] bool is_told(int k) const {
    return error(k) < told_share * layout_.priors()[static_cast<std::size_t>(k)].deviation;
  }

  [[nodiscard]] std::optional<base::Problem> what_is_wrong() const {
    const part::Cell& cell = out_.cell;
    for (std::size_t k = 1; k < cell.rest.size(); ++k) {
      if (cell.rest[k].voltage.si() > cell.rest[k - 1].voltage.si()) continue;
      return implausible(fmt::format(
          "its rest voltage falls from {} to {} between {} and {} of charge",
          show(cell.rest[k - 1].voltage.nominal(), 4), show(cell.rest[k].voltage.nominal(), 4),
          show(cell.rest[k - 1].soc.nominal()), show(cell.rest[k].soc.nominal())));
    }
    for (const part::ResistancePoint& point : cell.resistance) {
      if (point.resistance.si() > least_ohm) continue;
      return implausible(fmt::format("its resistance at {} of charge is {}",
                                     show(point.soc.nominal()), show(point.resistance.nominal())));
    }
    if (cell.branch_gap.si() < -0.005) {
      return implausible("it stands higher after discharging than after charging, by " +
                         show(Volt::of_si(-cell.branch_gap.si())));
    }
    return std::nullopt;
  }

  static void set_told(Amount& amount, double tolerance_si) {
    amount.origin = Origin::Measured;
    amount.given = true;
    amount.low_si = amount.nominal_si - tolerance_si;
    amount.high_si = amount.nominal_si + tolerance_si;
  }

  static double expanded(double standard_error) { return Spread::coverage_factor * standard_error; }

  /// A value whose logarithm was fitted; back to the class's if the logs did not tell it.
  void mark_log(Amount& amount, const Amount& of_class, int k, const char* key) {
    if (is_told(k)) {
      set_told(amount, amount.nominal_si * std::min(0.9, expanded(error(k))));
      return;
    }
    amount.origin = of_class.origin;
    amount.given = true;
    out_.from_class.emplace_back(key);
  }

  void mark_curves() {
    std::size_t rest_told = 0;
    for (std::size_t k = 0; k < out_.cell.rest.size(); ++k) {
      part::RestPoint& point = out_.cell.rest[k];
      point.soc.given = true;
      point.soc.origin = Origin::Measured;
      if (is_told(layout_.rest(k))) {
        ++rest_told;
        set_told(point.voltage, 0.0);
      }
    }
    if (2 * rest_told < out_.cell.rest.size()) out_.from_class.emplace_back("rest");
    std::size_t series_told = 0;
    for (std::size_t k = 0; k < out_.cell.resistance.size(); ++k) {
      part::ResistancePoint& point = out_.cell.resistance[k];
      point.soc.given = true;
      point.soc.origin = Origin::Measured;
      if (is_told(layout_.series(k))) {
        ++series_told;
        set_told(point.resistance, 0.0);
      }
    }
    if (2 * series_told < out_.cell.resistance.size()) out_.from_class.emplace_back("resistance");
  }

  void mark_scalars() {
    part::Cell& cell = out_.cell;
    const part::Cell& of_class = class_.cell;
    mark_log(cell.capacity, of_class.capacity, layout_.capacity, "capacity");
    mark_log(cell.quick_resistance, of_class.quick_resistance, layout_.quick_ohm,
             "quick_resistance");
    mark_log(cell.quick_time, of_class.quick_time, layout_.quick_s, "quick_time");
    mark_log(cell.slow_resistance, of_class.slow_resistance, layout_.slow_ohm, "slow_resistance");
    mark_log(cell.slow_time, of_class.slow_time, layout_.slow_s, "slow_time");
    const double b_k = 1000.0 * (1.0 / 273.15 - 1.0 / 298.15);
    if (is_told(layout_.arrhenius)) {
      set_told(cell.cold_factor, cell.cold_factor.si() * expanded(error(layout_.arrhenius)) * b_k);
      cell.cold_factor.low_si = std::max(1.0, cell.cold_factor.low_si);
    } else {
      out_.from_class.emplace_back("cold_factor");
    }
    cell.branch_gap.nominal_si = std::max(0.0, cell.branch_gap.nominal_si);
    if (is_told(layout_.gap)) {
      set_told(cell.branch_gap, expanded(error(layout_.gap)) * 0.01);
      cell.branch_gap.low_si = std::max(0.0, cell.branch_gap.low_si);
    } else {
      out_.from_class.emplace_back("branch_gap");
    }
  }

  void follow_tests() {
    CellLaw law = law_of(out_.cell);
    std::vector<double> voltage_v;
    std::vector<double> shares;
    for (std::size_t n = 0; n < tests_.size(); ++n) {
      const FitTest& test = tests_[n];
      courses_.push_back(
          {layout_.start_share(fit_.parameters, n), layout_.offset_a(fit_.parameters, n)});
      capacities_c_.push_back(layout_.capacity_c(fit_.parameters, n));
      law.capacity_c = capacities_c_.back();
      voltage_v.resize(test.samples.size());
      shares.resize(test.samples.size());
      follow(law, test, courses_.back(), voltage_v, shares);
      TestReport report;
      report.test = test.name;
      report.capacity_ratio = law.capacity_c / out_.cell.capacity.si();
      report.start_charge = Ratio::of_si(courses_.back().start_share);
      report.current_offset = Ampere::of_si(courses_.back().offset_a);
      report.rms = add_residuals(static_cast<int>(n), voltage_v, shares);
      out_.tests.push_back(std::move(report));
    }
  }

  Volt add_residuals(int n, const std::vector<double>& voltage_v,
                     const std::vector<double>& shares) {
    double sum = 0.0;
    double time_s = 0.0;
    const FitTest& test = tests_[static_cast<std::size_t>(n)];
    for (std::size_t k = 0; k < test.samples.size(); ++k) {
      const FitSample& sample = test.samples[k];
      const double error_v = voltage_v[k] - sample.voltage_v;
      sum += error_v * error_v * sample.dt_s;
      time_s += sample.dt_s;
      out_.residuals.push_back({n, Second::of_si(sample.time_s), Ratio::of_si(shares[k]),
                                Volt::of_si(sample.voltage_v), Volt::of_si(error_v)});
    }
    return Volt::of_si(time_s > 0.0 ? std::sqrt(sum / time_s) : 0.0);
  }

  void add_heat() {
    const auto heat = fit_heat(law_of(out_.cell), tests_, courses_, capacities_c_);
    if (!heat) {
      out_.from_class.emplace_back("heat_capacity");
      out_.from_class.emplace_back("to_air");
      return;
    }
    out_.cell.heat_capacity.nominal_si = heat->heat_j_per_k;
    out_.cell.to_air.nominal_si = heat->to_air_k_per_w;
    set_told(out_.cell.heat_capacity,
             heat->heat_j_per_k * std::min(0.9, expanded(heat->heat_error_share)));
    set_told(out_.cell.to_air,
             heat->to_air_k_per_w * std::min(0.9, expanded(heat->to_air_error_share)));
  }

  /// IEC 61960-3: discharged at 0.2 of the rated capacity an hour, at 20 +/- 5 degC.
  void add_rated() {
    const CellLaw law = law_of(out_.cell);
    const RunDown rated = discharge_at(law, law.capacity_c / (5.0 * 3600.0),
                                       out_.cell.discharge_to.si(), (20.0_degC).si());
    out_.capacity_5h = Coulomb::of_si(rated.taken_c);
    out_.energy_5h = Joule::of_si(rated.taken_j);
  }

  void add_left_out(const FitReport::LeftOut& left) {
    TestReport report;
    report.test = left.test;
    report.is_used = false;
    report.capacity_ratio = left.capacity_ratio;
    report.why_not = fmt::format(
        "{} gave {:.0f} % of the charge of the best test of its kind: the cell was older by then, "
        "or "
        "it is another cell. It is left out; if it shows the cell as it is now, fit it by itself.",
        left.test, 100.0 * left.capacity_ratio);
    out_.remarks.push_back(report.why_not);
    out_.tests.push_back(std::move(report));
  }

  void add_remarks() {
    for (const TestReport& test : out_.tests) {
      if (test.current_offset.si() == 0.0) continue;
      out_.remarks.push_back(fmt::format(
          "{}: discharge and charge only close if the tester's current is off by {}; its count of "
          "charge is put right by that.",
          test.test, show(Ampere::of_si(std::fabs(test.current_offset.si())), 2)));
    }
    if (!fit_.has_settled) {
      out_.remarks.emplace_back(
          "The search for the best fit was stopped before it stood still; look at the errors.");
    }
  }

  const CellClass& class_;
  const std::vector<FitTest>& tests_;
  const FitLayout& layout_;
  const numeric::LeastSquaresFit& fit_;
  FittedCell out_;
  std::vector<TestCourse> courses_;
  std::vector<double> capacities_c_;
};

}  // namespace

base::Result<FittedCell> fitted(const std::string& name, const CellClass& cell_class,
                                const std::vector<FitTest>& tests, const FitLayout& layout,
                                const numeric::LeastSquaresFit& fit, FitReport report) {
  return Result(cell_class, tests, layout, fit).whole(name, report);
}

}  // namespace tideover::cell
