/// The fault table for people who read of it in a terminal.
#pragma once

#include <string>
#include <vector>

#include "question/faults.hpp"
#include "service/verb.hpp"

namespace tideover::service {

/// Counts, what is dangerous and what loses devices in full, what nobody would notice with the
/// cheapest check, the rest in one line a severity, and the rules.
[[nodiscard]] std::vector<Line> fault_lines(const build::Build& build,
                                            const question::FaultTable& table);
/// Faults tried together: each entry in full, at both onsets.
[[nodiscard]] std::vector<Line> together_lines(const build::Build& build,
                                               const question::FaultTable& table);

}  // namespace tideover::service
