/// All drawing symbols on one page, each with its kind's name and its terminals' names.
#pragma once

#include "drawing/figure.hpp"

namespace tideover::part {

struct Symbol;

/// The shapes of a symbol whose frame has its corner at `at`, with a dot and the name at each
/// terminal.
[[nodiscard]] drawing::Group with_names(const Symbol& symbol, drawing::Point at);

/// 180 mm wide; packs and boards are shown with three groups.
[[nodiscard]] drawing::Figure symbol_sheet();

}  // namespace tideover::part
