/// A field with a logarithmic scale along both axes: bands, lines and marked places of x, their
/// names at the right. It reads in black and white: bands differ in fill, lines in dash.
#pragma once

#include <string>
#include <vector>

#include "drawing/axis.hpp"
#include "drawing/figure.hpp"

namespace tideover::drawing {

/// Above zero along both axes; what lies outside the field is cut off.
struct LogPoint {
  double x = 1.0;
  double y = 1.0;
};

/// Between two edges, both of x rising.
struct LogBand {
  std::string name;
  std::vector<LogPoint> lower;  ///< two points or more
  std::vector<LogPoint> upper;  ///< two points or more
  Fill fill;
  Stroke edge;
};

struct LogLine {
  std::string name;
  std::vector<LogPoint> points;  ///< two or more
  Stroke stroke;
};

/// A place of x, marked from top to bottom; its words stand above the field.
struct LogMark {
  double x = 1.0;
  std::string words;
};

struct LogChart {
  std::string title;        ///< for readers who cannot see it; not drawn
  std::string description;  ///< what it shows, in sentences; not drawn
  double width_mm = 180.0;  ///< >= 80
  double field_mm = 96.0;   ///< height of the field
  std::string x_title;
  std::string y_title;
  Range x;  ///< above zero
  Range y;  ///< above zero
  std::vector<LogBand> bands;
  std::vector<LogLine> lines;
  std::vector<LogMark> marks;
};

[[nodiscard]] Figure draw(const LogChart& chart);

}  // namespace tideover::drawing
