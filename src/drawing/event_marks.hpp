/// Instants of a story marked in words: thin poles through the panels, flags above them. Where the
/// words do not fit the poles carry numbers and a list below says what they are; what happens over
/// and over becomes short ticks and one line of that list.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "drawing/figure.hpp"
#include "drawing/folded_time.hpp"

namespace tideover::drawing {

struct EventMark {
  double at_s = 0.0;
  std::string words;  ///< a few, such as `relay lets go`
};

struct Pole {
  double x_mm = 0.0;
  int row = 0;
  bool leftward = false;
  std::string words;  ///< what the flag says: the event's words, a number or a span of numbers
};

struct NumberedMark {
  int number = 0;
  std::string words;  ///< when, and what
};

/// Where every mark goes.
struct MarkLayout {
  std::vector<Pole> poles;
  int rows = 0;                        ///< rows of flags in use
  std::vector<double> short_ticks_mm;  ///< x of marks that repeat, thinned to what print can show
  std::vector<NumberedMark> list;      ///< what the numbers mean, for below the plot
  std::vector<std::string> notes;      ///< sentences for below the list
};

/// Marks at times the axis leaves out are left out. Flags stay between `left_mm` and `right_mm`.
[[nodiscard]] MarkLayout lay_out_marks(std::vector<EventMark> marks, const FoldedTime& time,
                                       double left_mm, double right_mm);

inline constexpr double flag_row_mm = 3.2;

/// Poles and flags. Rows are stacked upwards from `flags_bottom_mm`; a pole runs through each of
/// the spans (top, bottom) below it too. Short ticks hang from the top of the first span.
[[nodiscard]] Group mark_flags(const MarkLayout& layout, double flags_bottom_mm,
                               const std::vector<std::pair<double, double>>& spans_mm);

}  // namespace tideover::drawing
