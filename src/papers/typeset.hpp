/// Plain words as a printed page has them.
#pragma once

#include <string>
#include <string_view>

namespace tideover::papers {

/// Safe inside HTML, with the signs that plain text spells out: `degC` becomes °C, `+/-` ±, `Ohm`
/// Ω, `uF` µF, `mm2` mm²; a minus before a number becomes U+2212; a number keeps together with its
/// unit. Words in back quotes become <code>, unchanged.
[[nodiscard]] std::string typeset(std::string_view words);

/// The same signs, not made safe for HTML: for figures, whose writer does that.
[[nodiscard]] std::string with_signs(std::string_view words);

}  // namespace tideover::papers
