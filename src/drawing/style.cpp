#include "drawing/style.hpp"

#include <array>
#include <cmath>

namespace tideover::drawing {

Colour colour_of(Ink ink) {
  switch (ink) {
    case Ink::Main: return {0x1c, 0x1b, 0x1a};
    case Ink::Quiet: return {0x6b, 0x68, 0x64};
    case Ink::Rule: return {0xd8, 0xd5, 0xd0};
    case Ink::Tint: return {0xef, 0xec, 0xe6};
    case Ink::Ground: return {0xc9, 0xc5, 0xbd};
    case Ink::Paper: return {0xff, 0xff, 0xff};
    case Ink::Caution: return {0x9c, 0x2a, 0x1c};
    case Ink::SeriesA: return {0x1c, 0x1b, 0x1a};
    case Ink::SeriesB: return {0x7a, 0x33, 0x1f};
    case Ink::SeriesC: return {0x25, 0x4f, 0x63};
    case Ink::SeriesD: return {0x55, 0x5c, 0x22};
    case Ink::SeriesE: return {0x5c, 0x3a, 0x66};
    case Ink::SeriesF: return {0x6b, 0x68, 0x64};
  }
  return {};
}

Colour as_grey(Colour colour) {
  const double luma = 0.299 * colour.red + 0.587 * colour.green + 0.114 * colour.blue;
  const auto level = static_cast<std::uint8_t>(std::lround(luma));
  return {level, level, level};
}

std::span<const double> dash_lengths_mm(Dash dash) {
  static constexpr std::array long_marks{3.0, 1.0};
  static constexpr std::array short_marks{1.2, 0.8};
  static constexpr std::array long_short{3.0, 0.8, 0.6, 0.8};
  static constexpr std::array dotted{0.35, 0.8};
  static constexpr std::array long_short_short{3.0, 0.7, 0.6, 0.7, 0.6, 0.7};
  switch (dash) {
    case Dash::Solid: return {};
    case Dash::Long: return long_marks;
    case Dash::Short: return short_marks;
    case Dash::LongShort: return long_short;
    case Dash::Dotted: return dotted;
    case Dash::LongShortShort: return long_short_short;
  }
  return {};
}

Stroke series_stroke(std::size_t index) {
  static constexpr std::array lines{
      Stroke{.width_mm = 0.3, .ink = Ink::SeriesA, .dash = Dash::Solid},
      Stroke{.width_mm = 0.3, .ink = Ink::SeriesB, .dash = Dash::Long},
      Stroke{.width_mm = 0.3, .ink = Ink::SeriesC, .dash = Dash::Short},
      Stroke{.width_mm = 0.3, .ink = Ink::SeriesD, .dash = Dash::LongShort},
      Stroke{.width_mm = 0.4, .ink = Ink::SeriesE, .dash = Dash::Dotted},
      Stroke{.width_mm = 0.3, .ink = Ink::SeriesF, .dash = Dash::LongShortShort},
  };
  Stroke stroke = lines[index % lines.size()];
  const std::size_t round = index / lines.size();
  stroke.width_mm += 0.25 * static_cast<double>(round);
  return stroke;
}

}  // namespace tideover::drawing
