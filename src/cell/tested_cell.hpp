/// One line of a lot written by hand: what a cell tester's display, an ohmmeter and a voltmeter
/// said of one cell. Most testers show a number and keep no log.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/value.hpp"

namespace tideover::cell {

/// A voltage at rest, and the day it was read on. Two of them months apart tell self-discharge.
struct RestVoltage {
  /// Days since 1970-01-01; empty if the table gives none.
  std::optional<int> day;
  quantity::Value<quantity::Volt> voltage;  ///< 0 V to 60 V
};

/// All values are of origin `Measured`, and `given`. Where the table states a tolerance the ends
/// differ, otherwise they are equal and nothing is known of the error.
struct TestedCell {
  std::string name;  ///< as the table writes it, not empty; unique within a lot
  std::optional<quantity::Value<quantity::Coulomb>> capacity;  ///< above 0
  std::optional<quantity::Value<quantity::Ohm>> resistance;    ///< above 0
  std::vector<RestVoltage> rest_voltages;  ///< undated first, then by day; may be empty
  std::string file;
  int line = 0;  ///< from 1: where its first row stands
};

}  // namespace tideover::cell
