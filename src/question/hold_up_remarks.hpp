/// Sentences about a capacitance that was sought: why solver and formula differ, what else would
/// do.
#pragma once

#include <string>
#include <vector>

#include "question/hold_up.hpp"

namespace tideover::question {

/// `relays`: that act in the course of the change.
[[nodiscard]] std::vector<std::string> hold_up_remarks(const HoldUp& answer,
                                                       const std::vector<std::string>& relays);

}  // namespace tideover::question
