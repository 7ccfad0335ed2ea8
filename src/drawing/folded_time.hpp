/// A time axis that may be folded: consecutive stretches of time, each at its own scale, so that
/// the milliseconds of a changeover and the hours of an outage stand on one line.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tideover::drawing {

struct TimeStretch {
  double from_s = 0.0;
  double to_s = 1.0;   ///< > from_s
  double share = 1.0;  ///< of the width, against the shares of the other stretches; > 0
  /// Ticks of this stretch count from here and carry a sign, and the one here names the time of
  /// the run; without it all count as the run does.
  std::optional<double> counted_from_s;
  std::string words;  ///< said below the stretch when the axis is folded, such as `the changeover`
};

/// A stretch with its place on the page.
struct PlacedStretch {
  TimeStretch time;
  double left_mm = 0.0;
  double right_mm = 0.0;

  [[nodiscard]] double x_mm(double t_s) const {
    return left_mm + (right_mm - left_mm) * (t_s - time.from_s) / (time.to_s - time.from_s);
  }
};

class FoldedTime {
 public:
  /// Stretches rise and do not overlap; time between two of them is left out.
  FoldedTime(const std::vector<TimeStretch>& stretches, double left_mm, double right_mm);

  [[nodiscard]] const std::vector<PlacedStretch>& stretches() const { return stretches_; }
  [[nodiscard]] bool folded() const { return stretches_.size() > 1; }
  [[nodiscard]] double left_mm() const { return stretches_.front().left_mm; }
  [[nodiscard]] double right_mm() const { return stretches_.back().right_mm; }

  /// Nothing for a time left out. The instant of a fold stands where the later stretch begins.
  [[nodiscard]] std::optional<double> x_mm(double t_s) const;

 private:
  std::vector<PlacedStretch> stretches_;
};

/// A tick with room found for its label.
struct PlacedTick {
  double x_mm = 0.0;
  std::string label;
  double label_x_mm = 0.0;  ///< middle of the label; moved a little inwards at the ends
};

/// As many ticks as fit with their labels in letters of `size_mm`, none touching another.
[[nodiscard]] std::vector<PlacedTick> placed_ticks(const FoldedTime& time, double size_mm);

}  // namespace tideover::drawing
