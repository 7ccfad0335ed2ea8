#include "cell/fit.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cell/fit_layout.hpp"
#include "cell/fit_result.hpp"
#include "cell/fit_roles.hpp"
#include "cell/follow_test.hpp"
#include "numeric/least_squares.hpp"

namespace tideover::cell {

namespace {

/// Beyond three of its deviations an error counts less and less (Huber's usual knee is lower; a
/// model's shortcomings at the ends of the curve are no reason to bend its middle).
constexpr double knee = 3.0;
/// Of one group of residuals: about as long as the slow pair remembers.
constexpr double group_s = 900.0;

class Fit {
 public:
  Fit(const std::vector<FitTest>& tests, const CellClass& cell_class, double capacity_c)
      : tests_(tests),
        layout_(cell_class.cell, tests, roles_of(tests, cell_class.cell, capacity_c), capacity_c) {
    task_.residuals = [this](std::span<const double> at, std::span<double> out) { fill(at, out); };
    group_samples();
    std::vector<double> smooth;
    layout_.add_smoothness(start(), smooth);
    task_.group.resize(task_.group.size() + priors() + smooth.size(), -1);
    task_.residual_count = static_cast<int>(task_.group.size());
  }

  numeric::LeastSquaresFit whole() { return numeric::fit_least_squares(task_, start()); }
  [[nodiscard]] const FitLayout& layout() const { return layout_; }

 private:
  [[nodiscard]] std::vector<double> start() const {
    std::vector<double> at;
    at.reserve(layout_.priors().size());
    for (const Prior& prior : layout_.priors()) at.push_back(prior.start);
    return at;
  }
  [[nodiscard]] std::size_t priors() const { return layout_.priors().size() + tests_.size(); }

  void group_samples() {
    int group = 0;
    for (const FitTest& test : tests_) {
      double since_s = 0.0;
      for (const FitSample& sample : test.samples) {
        since_s += sample.dt_s;
        if (since_s > group_s || sample.is_behind_gap) {
          ++group;
          since_s = 0.0;
        }
        task_.group.push_back(group);
      }
      ++group;
    }
  }

  void fill(std::span<const double> at, std::span<double> out) const {
    std::size_t row = 0;
    CellLaw law = law_of(layout_.cell_of(at));
    std::vector<double> voltage_v;
    for (std::size_t n = 0; n < tests_.size(); ++n) {
      const FitTest& test = tests_[n];
      law.capacity_c = layout_.capacity_c(at, n);
      voltage_v.resize(test.samples.size());
      follow(law, test, {layout_.start_share(at, n), layout_.offset_a(at, n)}, voltage_v);
      for (std::size_t k = 0; k < test.samples.size(); ++k) {
        const double error_v = voltage_v[k] - test.samples[k].voltage_v;
        out[row++] =
            test.samples[k].weight * deviation_v * numeric::held_back(error_v / deviation_v, knee);
      }
    }
    for (std::size_t k = 0; k < layout_.priors().size(); ++k) {
      const Prior& prior = layout_.priors()[k];
      const double off = (at[k] - prior.expected) / prior.deviation;
      out[row++] = prior.is_firm ? off : numeric::held_back(off, knee);
    }
    for (std::size_t n = 0; n < tests_.size(); ++n) {
      out[row++] = numeric::held_back(layout_.odd_anchor(at, n), knee);
    }
    std::vector<double> smooth;
    layout_.add_smoothness(at, smooth);
    for (const double residual : smooth) out[row++] = residual;
  }

  /// What one sample's error is measured by when it is held back.
  static constexpr double deviation_v = 0.010;
  const std::vector<FitTest>& tests_;
  FitLayout layout_;
  numeric::LeastSquaresTask task_;
};

base::Problem nothing_to_fit(const std::string& why) {
  base::Problem problem{{},
                        why,
                        "Fit from logs in which the cell is discharged, best from full to "
                        "empty, with voltage and current in every row."};
  return problem;
}

}  // namespace

base::Result<FittedCell> fit_cell(const std::string& name, const std::vector<Log>& logs,
                                  const CellClass& cell_class, base::Progress& progress) {
  std::vector<FitTest> tests;
  for (const Log& log : logs) {
    for (FitTest& test : tests_of(log)) tests.push_back(std::move(test));
  }
  const double capacity_c = first_capacity_c(tests);
  if (tests.empty() || capacity_c < 0.1 * cell_class.cell.capacity.si()) {
    return nothing_to_fit("the logs move too little charge to fit a cell of the class `" +
                          cell_class.name + "`");
  }
  FitReport report;
  const auto odd = odd_tests(tests, cell_class.cell, capacity_c);
  std::vector<FitTest> kept;
  kept.reserve(tests.size());
  for (std::size_t n = 0; n < tests.size(); ++n) {
    const auto at = std::ranges::find(odd, n, &OddTest::test);
    if (at == odd.end()) {
      kept.push_back(std::move(tests[n]));
    } else {
      report.left_out.push_back({tests[n].name, at->charge_ratio});
    }
  }
  progress.report(0.05, "fitting the cell");
  Fit fit(kept, cell_class, std::min(first_capacity_c(kept), 1.5 * cell_class.cell.capacity.si()));
  return fitted(name, cell_class, kept, fit.layout(), fit.whole(), std::move(report));
}

const CellClass* nearest_class(const std::vector<Log>& logs,
                               const std::vector<CellClass>& classes) {
  double highest_v = 0.0;
  double capacity_c = 0.0;
  for (const Log& log : logs) {
    for (const double v : log.voltage_v) highest_v = std::max(highest_v, v);
    capacity_c = std::max(capacity_c, first_capacity_c(tests_of(log)));
  }
  const CellClass* nearest = nullptr;
  double least = 0.0;
  for (const CellClass& one : classes) {
    const double beyond_v = highest_v - one.cell.charge_to.si();
    if (std::fabs(beyond_v) > 0.08 * one.cell.charge_to.si()) continue;
    const double distance =
        std::fabs(std::log(one.cell.capacity.si() / std::max(capacity_c, 1.0))) +
        10.0 * std::fabs(beyond_v) / one.cell.charge_to.si();
    if (nearest == nullptr || distance < least) {
      nearest = &one;
      least = distance;
    }
  }
  return nearest;
}

}  // namespace tideover::cell
