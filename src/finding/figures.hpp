/// What a finding comes to, in numbers, as the terminal and the report tell it.
#pragma once

#include <string>

#include "finding/finding.hpp"

namespace tideover::finding {

/// "4.225 V": with the digits that tell it from its limit.
[[nodiscard]] std::string in_words(const Figure& figure);
/// "2 % left", "exceeded by 0.6 %"; empty where there is no margin.
[[nodiscard]] std::string margin_in_words(const Finding& finding);
/// "comes to 4.225 V, limit 4.2 V, exceeded by 0.6 %"; what is not known is left out.
[[nodiscard]] std::string figures_in_words(const Finding& finding);

}  // namespace tideover::finding
