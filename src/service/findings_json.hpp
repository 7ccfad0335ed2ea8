/// Findings for programs.
#pragma once

#include <span>

#include "finding/rules.hpp"
#include "service/json.hpp"

namespace tideover::service {

/// A list: rule, title, part, answer, measured, limit, unit, margin, sentence, advice, unknown, and
/// the rule's words, formula, source and caution. Figures are in the unit named.
[[nodiscard]] Json findings_json(std::span<const finding::Found> findings);

}  // namespace tideover::service
