#include "cell/fit_layout.hpp"

#include <algorithm>
#include <cmath>

namespace tideover::cell {

namespace {

// How far a cell may be from its class, as standard deviations: wide, so that a log decides
// wherever it says anything. Our choice.
constexpr double rest_far_v = 0.10;   ///< where a slow discharge fixes full and empty
constexpr double rest_near_v = 0.03;  ///< where only the class does
constexpr double log_series_far = 0.5;
constexpr double log_pair_far = 0.7;
constexpr double arrhenius_far_kk = 0.4;  ///< thousand kelvin
constexpr double gap_far_cv = 1.5;        ///< hundredths of a volt
constexpr double offset_far_share =
    0.004;  ///< of the 1 h current: a tester's range is several times that
constexpr double start_full_share = 0.005;
constexpr double start_any_share = 0.3;
// Second differences of what the curves have beyond the class's.
constexpr double rest_bend_v = 0.010;
constexpr double end_soc = 0.06;  ///< nearer to either end the curve is steep and a class's own
constexpr double end_far_v = 0.4;
constexpr double end_bend_v = 0.1;
constexpr double log_series_bend = 0.2;

constexpr double ice_k = 273.15;
constexpr double reference_k = 298.15;
constexpr double volt_per_gap = 0.01;
constexpr double kelvin_per_arrhenius = 1000.0;

std::vector<double> rest_knots() {
  std::vector<double> soc{0.0, 0.01, 0.02, 0.035, 0.05, 0.075, 0.10};
  for (int k = 5; k <= 38; ++k) soc.push_back(0.025 * k);
  for (const double z : {0.965, 0.98, 0.99, 1.0}) soc.push_back(z);
  return soc;
}

std::vector<double> series_knots() {
  return {0.0, 0.02, 0.04, 0.06, 0.08, 0.1, 0.13, 0.17, 0.22,
          0.3, 0.4,  0.5,  0.6,  0.7,  0.8, 0.87, 0.93, 1.0};
}

bool is_end(double soc) { return soc < end_soc || soc > 1.0 - end_soc; }

double log_of(const quantity::Amount& amount, double least) {
  return std::log(std::max(amount.nominal_si, least));
}

void put(quantity::Amount& into, double si) {
  into.nominal_si = si;
  into.low_si = si;
  into.high_si = si;
}

}  // namespace

FitLayout::FitLayout(const part::Cell& class_cell, const std::vector<FitTest>& tests,
                     std::vector<TestRole> roles, double capacity_c)
    : class_cell_(class_cell),
      tests_(tests),
      roles_(std::move(roles)),
      class_law_(law_of(class_cell)),
      capacity_guess_c_(capacity_c),
      rest_soc_(rest_knots()),
      series_soc_(series_knots()) {
  const bool is_anchored =
      std::ranges::any_of(roles_, [](const TestRole& role) { return role.is_anchor; });
  add_curves(is_anchored);
  add_resistances();
  capacity = add({std::log(capacity_c), std::log(capacity_c), is_anchored ? 1.0 : 0.3});
  add_tests();
}

int FitLayout::add(Prior prior) {
  priors_.push_back(prior);
  return size() - 1;
}

void FitLayout::add_curves(bool is_anchored) {
  rest_ = size();
  for (const double z : rest_soc_) {
    const double v = class_law_.curves.rest_v(z);
    add({v, v, is_anchored ? (is_end(z) ? end_far_v : rest_far_v) : rest_near_v});
  }
  series_ = size();
  for (const double z : series_soc_) {
    const double ln =
        std::log(class_law_.curves.half_charge_ohm * class_law_.curves.resistance_ratio(z));
    add({ln, ln, log_series_far});
  }
}

void FitLayout::add_resistances() {
  // A class without a slow pair says nothing of one: a minute's worth as large as the quick one.
  const double slow =
      std::max(class_cell_.slow_resistance.si(), 0.3 * class_cell_.quick_resistance.si());
  const auto around = [this](double ln) { return add({ln, ln, log_pair_far}); };
  quick_ohm = around(log_of(class_cell_.quick_resistance, 1e-5));
  quick_s = around(log_of(class_cell_.quick_time, 0.1));
  slow_ohm = around(std::log(slow));
  slow_s = around(log_of(class_cell_.slow_time, 10.0));
  const double b = class_law_.arrhenius_k / kelvin_per_arrhenius;
  arrhenius = add({b, b, arrhenius_far_kk});
  const double g = class_cell_.branch_gap.si() / volt_per_gap;
  gap = add({g, g, gap_far_cv});
}

void FitLayout::add_tests() {
  const double one_hour_a = capacity_guess_c_ / 3600.0;
  for (const TestRole& role : roles_) {
    PerTest place;
    if (!role.is_anchor) {
      place.ratio = add({0.0, 0.0, test_to_test_share, false});
      place.start = add({role.start_share, role.start_share,
                         role.begins_full ? start_full_share : start_any_share});
    }
    if (role.seeks_offset) place.offset = add({0.0, 0.0, offset_far_share * one_hour_a});
    per_test_.push_back(place);
  }
}

part::Cell FitLayout::cell_of(std::span<const double> at) const {
  part::Cell cell = class_cell_;
  const auto value = [&](int k) { return at[static_cast<std::size_t>(k)]; };
  cell.rest.assign(rest_soc_.size(), {});
  for (std::size_t k = 0; k < rest_soc_.size(); ++k) {
    put(cell.rest[k].soc, rest_soc_[k]);
    put(cell.rest[k].voltage, value(rest(k)));
  }
  cell.resistance.assign(series_soc_.size(), {});
  for (std::size_t k = 0; k < series_soc_.size(); ++k) {
    put(cell.resistance[k].soc, series_soc_[k]);
    put(cell.resistance[k].resistance, std::exp(value(series(k))));
  }
  put(cell.quick_resistance, std::exp(value(quick_ohm)));
  put(cell.quick_time, std::exp(value(quick_s)));
  put(cell.slow_resistance, std::exp(value(slow_ohm)));
  put(cell.slow_time, std::exp(value(slow_s)));
  put(cell.cold_factor,
      std::exp(value(arrhenius) * kelvin_per_arrhenius * (1.0 / ice_k - 1.0 / reference_k)));
  put(cell.branch_gap, value(gap) * volt_per_gap);
  put(cell.capacity, std::exp(value(capacity)));
  return cell;
}

double FitLayout::capacity_c(std::span<const double> at, std::size_t test) const {
  if (roles_[test].is_anchor) {
    const FitTest& slow = tests_[test];
    return -slow.lowest_c - offset_a(at, test) * slow.discharging_s;
  }
  return std::exp(at[static_cast<std::size_t>(capacity)] +
                  at[static_cast<std::size_t>(per_test_[test].ratio)]);
}

double FitLayout::start_share(std::span<const double> at, std::size_t test) const {
  const int k = per_test_[test].start;
  return k < 0 ? 1.0 : at[static_cast<std::size_t>(k)];
}

double FitLayout::offset_a(std::span<const double> at, std::size_t test) const {
  const int k = per_test_[test].offset;
  return k < 0 ? 0.0 : at[static_cast<std::size_t>(k)];
}

double FitLayout::odd_capacity(std::span<const double> at, std::size_t test) const {
  return (std::log(capacity_c(at, test)) - at[static_cast<std::size_t>(capacity)]) /
         test_to_test_share;
}

void FitLayout::add_smoothness(std::span<const double> at, std::vector<double>& residuals) const {
  const auto beyond = [&](int k) {
    return at[static_cast<std::size_t>(k)] - priors_[static_cast<std::size_t>(k)].expected;
  };
  for (std::size_t k = 1; k + 1 < rest_soc_.size(); ++k) {
    residuals.push_back((beyond(rest(k + 1)) - 2.0 * beyond(rest(k)) + beyond(rest(k - 1))) /
                        (is_end(rest_soc_[k]) ? end_bend_v : rest_bend_v));
  }
  for (std::size_t k = 1; k + 1 < series_soc_.size(); ++k) {
    residuals.push_back((beyond(series(k + 1)) - 2.0 * beyond(series(k)) + beyond(series(k - 1))) /
                        log_series_bend);
  }
}

}  // namespace tideover::cell
