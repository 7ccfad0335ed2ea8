/// The list of all rules, and asking them all.
#pragma once

#include <span>
#include <vector>

#include "finding/finding.hpp"

namespace tideover::finding {

/// In the order in which a builder would go through them.
[[nodiscard]] std::span<const Rule> all_rules();
/// Null if there is none of that key.
[[nodiscard]] const Rule* find_rule(std::string_view key);

struct Found {
  const Rule* rule = nullptr;  ///< never null
  Finding finding;
};
/// What all rules find: failed harm, failed, unknown, tight, classes, holds; in the rules' order
/// within each.
[[nodiscard]] std::vector<Found> check(const Evidence& evidence);

}  // namespace tideover::finding
