/// How a mark looks: ink by what it is for, stroke, dash, fill. Nothing here rests on colour alone:
/// every series has its own dash, and every ink keeps its rank when printed in grey.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <variant>

namespace tideover::drawing {

/// What a mark is for. A writer turns it into a colour or a grey.
enum class Ink {
  Main,     ///< words, outlines
  Quiet,    ///< axes, ticks, leaders, second-rank words
  Rule,     ///< hairlines that help the eye along
  Tint,     ///< the ground of a marked range
  Ground,   ///< what a line covers where it changes too fast to draw
  Paper,    ///< the ground of the page
  Caution,  ///< beside a warning; always with words
  SeriesA,  ///< series inks, all dark enough for thin lines on white paper
  SeriesB,
  SeriesC,
  SeriesD,
  SeriesE,
  SeriesF,
};

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;

  [[nodiscard]] bool operator==(const Colour&) const = default;
};

[[nodiscard]] Colour colour_of(Ink ink);

/// The grey of the same luma, as a black-and-white printer would show it.
/// Source: ITU-R BT.601 luma weights 0.299, 0.587, 0.114.
[[nodiscard]] Colour as_grey(Colour colour);

enum class Dash { Solid, Long, Short, LongShort, Dotted, LongShortShort };

/// Lengths of mark and gap in turn, mm; empty for a solid line.
[[nodiscard]] std::span<const double> dash_lengths_mm(Dash dash);

struct Stroke {
  double width_mm = 0.25;
  Ink ink = Ink::Main;
  Dash dash = Dash::Solid;

  [[nodiscard]] bool operator==(const Stroke&) const = default;
};

struct SolidFill {
  Ink ink = Ink::Tint;

  [[nodiscard]] bool operator==(const SolidFill&) const = default;
};

/// Parallel lines; the ground between them stays as it is.
struct Hatch {
  double spacing_mm = 1.5;  ///< across the lines, > 0
  double angle_deg = 45.0;  ///< from the x axis, clockwise on the page
  Stroke stroke = {.width_mm = 0.1, .ink = Ink::Quiet};

  [[nodiscard]] bool operator==(const Hatch&) const = default;
};

using Fill = std::variant<std::monostate, SolidFill, Hatch>;

/// The line of the nth series of a panel (from 0). The first six differ in dash and in ink; the
/// next six repeat them thicker, and so on.
[[nodiscard]] Stroke series_stroke(std::size_t index);

}  // namespace tideover::drawing
