// Parts of every kind and make with values that a build could have, and their whole state as text.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "part/part.hpp"

namespace tideover::tests {

using AllParts = std::vector<std::unique_ptr<part::Part>>;

// Each kind with its several makes: every topology, style, suppression, count that changes how it
// fails.
[[nodiscard]] AllParts parts_of_every_make();

// All described values of a part, and the members that only a fault sets.
[[nodiscard]] std::string state_of(const part::Part& part);

// The mode of that name; a failed test if the part has none.
[[nodiscard]] part::FailureMode mode_of(const part::Part& part, const std::string& name);

// A copy of `part` that has failed by the mode of that name, which alters it.
template <class P>
[[nodiscard]] P failed(P part, const std::string& name) {
  mode_of(part, name).alters(part);
  return part;
}

}  // namespace tideover::tests
