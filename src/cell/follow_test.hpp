/// A model taken through a test's samples: the voltage it says at each.
#pragma once

#include <span>
#include <vector>

#include "cell/cell_law.hpp"
#include "cell/fit_test.hpp"

namespace tideover::cell {

struct TestCourse {
  double start_share = 1.0;
  double offset_a = 0.0;  ///< added to every current that is not nothing
};

/// The voltages, one a sample, into `voltages_v`; the charge at each into `shares` unless empty.
/// Temperatures are the logged ones; where none was logged the cell warms by itself from 25 degC.
void follow(const CellLaw& law, const FitTest& test, const TestCourse& course,
            std::span<double> voltages_v, std::span<double> shares = {});

}  // namespace tideover::cell
