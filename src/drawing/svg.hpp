/// A figure as one self-contained SVG element: no scripts, no styles that leak into a page around
/// it, nothing fetched from outside. Equal figures give equal bytes.
/// Source: W3C SVG 1.1 (Second Edition); labelling by title and desc as in WAI-ARIA `img`.
#pragma once

#include <string>
#include <string_view>

#include "drawing/figure.hpp"

namespace tideover::drawing {

enum class Printing { Colour, Grey };

/// UTF-8. Width, height and viewBox in mm; numbers rounded to 0.001 mm.
/// Every id inside starts with a name made from the content, so several figures may share a page.
/// A coordinate that is not finite is an inside error.
[[nodiscard]] std::string svg(const Figure& figure, Printing printing = Printing::Colour);

/// Words made safe as XML text or attribute: & < > and quotes as entities, characters XML 1.0
/// does not allow and malformed UTF-8 as U+FFFD.
[[nodiscard]] std::string xml_escaped(std::string_view words);

/// Fixed notation, at most three decimals, no trailing zeros, no "-0". The value is finite.
[[nodiscard]] std::string compact_number(double value);

}  // namespace tideover::drawing
