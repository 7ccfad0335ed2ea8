/// What a kind looks like on a wiring drawing: strokes in millimetres, and where its terminals
/// stand. The forms are those of IEC 60617 where that has one, else a box with a word (from
/// memory); terminals stand on the edge of the frame and on its grid.
#pragma once

#include <string>
#include <vector>

#include "drawing/figure.hpp"

namespace tideover::part {

/// The module of IEC 60617 (from memory): terminals lie on multiples of it.
inline constexpr double symbol_module_mm = 2.5;

/// Where a lead meets the symbol.
struct Pin {
  std::string terminal;
  drawing::Point at;
};

/// The frame runs from (0, 0) to (width, height), x to the right, y down.
struct Symbol {
  double width_mm = 0.0;
  double height_mm = 0.0;
  std::vector<drawing::Shape> strokes;
  std::vector<Pin> pins;  ///< one for each terminal
};

/// Draws a symbol stroke by stroke, all in one line width.
class SymbolPen {
 public:
  SymbolPen(double width_mm, double height_mm);

  /// A terminal on the edge and the line from it inwards.
  void pin(std::string terminal, drawing::Point at, drawing::Point inner);
  void line(std::vector<drawing::Point> points);
  /// A mechanical link, or the border of what is one unit.
  void dashed(std::vector<drawing::Point> points);
  void box(drawing::Box box);
  void closed(std::vector<drawing::Point> points, bool is_solid);
  void circle(drawing::Point centre, double radius_mm);
  /// Angles as in drawing::Arc.
  void arc(drawing::Point centre, double radius_mm, double start_deg, double sweep_deg);
  /// Words with their middle at a point.
  void word(drawing::Point middle, std::string words, double size_mm = 2.6);
  /// A plus sign about a point: at the positive end of what has one.
  void plus(drawing::Point middle);
  /// A diode from `anode` to `cathode` on one horizontal line, either way round, 4 mm long.
  void diode(drawing::Point middle, bool points_left = false);

  [[nodiscard]] Symbol done() && { return std::move(symbol_); }

 private:
  Symbol symbol_;
};

/// Terminals along the sides of a box, from the top or from the left.
struct Sides {
  std::vector<std::string> left = {};
  std::vector<std::string> right = {};
  std::vector<std::string> below = {};
};

/// A box with a word for what has no form of its own.
[[nodiscard]] Symbol boxed(const std::string& word, const Sides& sides);

}  // namespace tideover::part
