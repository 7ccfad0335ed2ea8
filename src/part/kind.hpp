/// The list of part kinds. A new kind is one folder under part/ and one line in kind.cpp.
#pragma once

#include <functional>
#include <memory>
#include <string_view>
#include <vector>

#include "part/part.hpp"

namespace tideover::part {

/// `make` yields a part with every value at its default.
struct Kind {
  const Description* description = nullptr;
  std::function<std::unique_ptr<Part>()> make;
};

/// All kinds, in the order of a catalogue; the name is description->name.
[[nodiscard]] const std::vector<Kind>& kinds();
/// nullptr if there is no kind of that name.
[[nodiscard]] const Kind* find_kind(std::string_view name);

}  // namespace tideover::part
