/// How many findings came out how, in words.
#pragma once

#include <span>
#include <string>

#include "finding/rules.hpp"

namespace tideover::finding {

/// "2 fail, 1 is unknown, 3 are tight, 1 is a class, 40 hold"; what there is none of is left out.
[[nodiscard]] std::string counts_in_words(std::span<const Found> findings);
/// Those that neither fail nor are tight: "41 findings more: 1 is unknown, 40 hold"; empty if none.
[[nodiscard]] std::string others_in_words(std::span<const Found> findings);

}  // namespace tideover::finding
