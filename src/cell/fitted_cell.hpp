/// What a fit makes of a cell's logs: the cell, how well each value is known, and what the program
/// did with every test.
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "part/pack/cell.hpp"
#include "quantity/units.hpp"

namespace tideover::cell {

/// One test beside the model.
struct TestReport {
  std::string test;
  bool is_used = true;
  std::string why_not;  ///< a sentence, if it is not
  /// Capacity it asks for over the cell's; two runs of one test are seldom nearer than 2 %.
  double capacity_ratio = 1.0;
  quantity::Ratio start_charge;
  quantity::Volt rms;               ///< of the voltage's error, each second counting the same
  quantity::Ampere current_offset;  ///< taken for an error of the tester's current; 0: none sought
};

/// Error of the model at one sample, for a plot.
struct Residual {
  int test = 0;  ///< index among the reports
  quantity::Second time;
  quantity::Ratio charge;
  quantity::Volt measured;
  quantity::Volt error;  ///< model less measured
};

struct FittedCell {
  std::string name;
  std::string class_name;  ///< the row that what the logs cannot tell is taken from
  part::Cell cell;         ///< what the logs told has origin `measured` and its tolerance
  std::vector<std::string> from_class;  ///< keys that the logs did not tell
  quantity::Coulomb capacity_5h;        ///< at 0.2 of it an hour, as IEC 61960-3 rates a cell
  quantity::Joule energy_5h;
  std::vector<TestReport> tests;
  std::vector<Residual> residuals;
  std::vector<std::string> remarks;  ///< sentences for people
};

}  // namespace tideover::cell
