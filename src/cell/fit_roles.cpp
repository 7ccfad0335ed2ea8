#include "cell/fit_roles.hpp"

#include <algorithm>
#include <cmath>

#include "cell/cell_law.hpp"

namespace tideover::cell {

namespace {

constexpr double slow_hours = 8.0;     ///< at least, from full to empty
constexpr double whole_share = 0.85;   ///< of the capacity, to be a whole discharge
constexpr double near_empty_v = 0.06;  ///< above the lowest voltage
constexpr double near_full_share = 0.96;
constexpr double high_share = 0.75;
constexpr double alike_share = 0.1;  ///< currents no further apart make tests of one kind
constexpr double odd_ratio = 0.93;
constexpr double alike_k = 5.0;
constexpr double both_ways_share = 0.3;  ///< of the capacity, each way, for an offset to show

double mean_discharge_a(const FitTest& test) {
  return test.discharging_s > 0.0 ? test.discharged_c / test.discharging_s : 0.0;
}

/// Cold takes charge away by itself.
bool is_as_warm(const FitTest& one, const FitTest& other) {
  return std::fabs(one.samples.front().temperature_k - other.samples.front().temperature_k) <
         alike_k;
}

double mean_charge_a(const FitTest& test) {
  return test.charging_s > 0.0 ? test.charged_c / test.charging_s : 0.0;
}

/// Charge at which the class's rest voltage is that of the test's first sample, its current's drop
/// put right as the class has it.
double first_share(const FitTest& test, const CellLaw& law) {
  const FitSample& first = test.samples.front();
  CellState state;
  state.charge_share = 0.5;
  const double drop_v = first.current_a * (law.curves.half_charge_ohm + law.quick_ohm);
  const double rest_v = first.voltage_v - drop_v;
  double low = 0.0;
  double high = 1.0;
  for (int halving = 0; halving < 40; ++halving) {
    const double middle = 0.5 * (low + high);
    (law.curves.rest_v(middle) < rest_v ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// Discharged only, from high up to the lowest voltage: who does that begins with a full cell
/// (common practice, no source). The first sample may stand under load already.
bool is_capacity_test(const FitTest& test, double first_share, double lowest_v, double capacity_c) {
  const bool has_seen_all = test.discharged_c > -0.98 * test.lowest_c;
  return has_seen_all && first_share > high_share && test.highest_c < 0.02 * capacity_c &&
         test.lowest_v < lowest_v + near_empty_v;
}

bool is_whole_slow_discharge(const FitTest& test, const TestRole& role, double lowest_v,
                             double capacity_c) {
  const double slowest_a = capacity_c / (slow_hours * 3600.0);
  return role.begins_full && -test.lowest_c > whole_share * capacity_c &&
         mean_discharge_a(test) <= slowest_a && test.lowest_v < lowest_v + near_empty_v;
}

}  // namespace

double first_capacity_c(const std::vector<FitTest>& tests) {
  double capacity_c = 0.0;
  for (const FitTest& test : tests) capacity_c = std::max(capacity_c, test.swing_c());
  return capacity_c;
}

std::vector<TestRole> roles_of(const std::vector<FitTest>& tests, const part::Cell& class_cell,
                               double capacity_c) {
  const CellLaw law = law_of(class_cell);
  const double lowest_v = class_cell.discharge_to.si();
  const double slow_a = capacity_c / (slow_hours * 3600.0);
  std::vector<TestRole> roles(tests.size());
  std::size_t anchor = tests.size();
  for (std::size_t k = 0; k < tests.size(); ++k) {
    TestRole& role = roles[k];
    role.start_share = first_share(tests[k], law);
    // A discharge that takes nearly all out can only have begun full.
    role.begins_full =
        role.start_share > near_full_share ||
        (tests[k].highest_c < 0.02 * capacity_c && -tests[k].lowest_c > whole_share * capacity_c);
    if (role.begins_full) role.start_share = 1.0;
    const bool is_slow = mean_discharge_a(tests[k]) <= slow_a && mean_charge_a(tests[k]) <= slow_a;
    role.seeks_offset = is_slow && tests[k].charged_c > both_ways_share * capacity_c &&
                        tests[k].discharged_c > both_ways_share * capacity_c;
    if (!is_whole_slow_discharge(tests[k], role, lowest_v, capacity_c)) continue;
    if (anchor == tests.size() || mean_discharge_a(tests[k]) < mean_discharge_a(tests[anchor])) {
      anchor = k;
    }
  }
  if (anchor < tests.size()) roles[anchor].is_anchor = true;
  return roles;
}

std::vector<OddTest> odd_tests(const std::vector<FitTest>& tests, const part::Cell& class_cell,
                               double capacity_c) {
  const CellLaw law = law_of(class_cell);
  const double lowest_v = class_cell.discharge_to.si();
  const auto is_whole = [&](const FitTest& test) {
    return is_capacity_test(test, first_share(test, law), lowest_v, capacity_c);
  };
  std::vector<OddTest> odd;
  for (std::size_t k = 0; k < tests.size(); ++k) {
    if (!is_whole(tests[k])) continue;
    double best_c = tests[k].discharged_c;
    for (const FitTest& other : tests) {
      const double rate_ratio = mean_discharge_a(other) / mean_discharge_a(tests[k]);
      if (std::fabs(rate_ratio - 1.0) < alike_share && is_as_warm(other, tests[k]) &&
          is_whole(other)) {
        best_c = std::max(best_c, other.discharged_c);
      }
    }
    const double ratio = tests[k].discharged_c / best_c;
    if (ratio < odd_ratio) odd.push_back({k, ratio});
  }
  return odd;
}

}  // namespace tideover::cell
