/// The parts of one kind.
#pragma once

#include <vector>

#include "build/build.hpp"

namespace tideover::build {

/// All of them, in the order of the sheet.
template <class Kind>
[[nodiscard]] std::vector<const Kind*> parts_of(const Build& build) {
  std::vector<const Kind*> found;
  for (const auto& part : build.parts) {
    if (const auto* const one = dynamic_cast<const Kind*>(part.get())) found.push_back(one);
  }
  return found;
}

/// The first of them; null if there is none.
template <class Kind>
[[nodiscard]] const Kind* first_of(const Build& build) {
  for (const auto& part : build.parts) {
    if (const auto* const one = dynamic_cast<const Kind*>(part.get())) return one;
  }
  return nullptr;
}

}  // namespace tideover::build
