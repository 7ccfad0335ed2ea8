/// How the papers look: ink on paper, one column, the same on screen and in print.
#pragma once

#include <string_view>

namespace tideover::papers {

[[nodiscard]] std::string_view style_sheet();

}  // namespace tideover::papers
