/// A log as the fit looks at it: stretches of time with the mean current in each, the voltage at
/// its end, and how much that voltage counts.
///
/// A test is what one charge count spans: a new one begins where a log begins, is reset or names
/// another run. A gap over which the counter went on stays inside its test, as a jump of charge
/// with a long rest behind it.
#pragma once

#include <string>
#include <vector>

#include "cell/log.hpp"

namespace tideover::cell {

struct FitSample {
  double time_s = 0.0;
  double dt_s = 0.0;           ///< since the sample before; 0 at a beginning and behind a gap
  double mean_a = 0.0;         ///< over that stretch; charging is positive
  double current_a = 0.0;      ///< at its end
  double voltage_v = 0.0;      ///< at its end
  double temperature_k = 0.0;  ///< of the case; 0: not logged
  double ambient_k = 0.0;      ///< of the air; 0: not logged
  double unseen_c = 0.0;       ///< charge put in during a gap before this sample
  bool is_behind_gap = false;
  double weight = 0.0;  ///< 1 / standard deviation [1/V]
};

struct FitTest {
  std::string name;  ///< "pulses.csv", "one_c.csv start1"
  std::vector<FitSample> samples;
  double lowest_c = 0.0;  ///< of the charge count, 0 at the beginning
  double highest_c = 0.0;
  double last_c = 0.0;
  double lowest_v = 0.0;
  double charging_s = 0.0;  ///< time driven one way and the other
  double discharging_s = 0.0;
  double charged_c = 0.0;
  double discharged_c = 0.0;

  [[nodiscard]] double swing_c() const { return highest_c - lowest_c; }
};

/// The tests of a log. Long logs are brought down to at most `most_samples` a test: stretches in
/// which current and voltage hardly move become one; their charge is kept.
[[nodiscard]] std::vector<FitTest> tests_of(const Log& log, std::size_t most_samples = 6000);

}  // namespace tideover::cell
