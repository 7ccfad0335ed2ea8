/// What limits the current of a lead when something behind it is shorted.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/feed.hpp"

namespace tideover::finding {

/// A source, and the terminal at which what it drives is taken.
struct GuardFeed {
  Feed feed;
  build::TerminalName at;
};

/// A lead towards the users is guarded by what lies before it. A return lead is guarded by what
/// lies before the users that return through it: no current gets into it any other way.
struct LeadGuard {
  const build::Lead* lead = nullptr;  ///< never null
  bool is_return = false;
  /// Of all sources together that meet at the end from which most comes; unlimited_a: not limited.
  double most_a = 0.0;
  /// The largest share of it, and the terminal it is taken at.
  Feed worst = {};
  build::TerminalName at = {};
  /// Every source that drives current into the lead; of a return, at every user.
  std::vector<GuardFeed> feeds = {};
  /// Where nothing limits it: wire without a fuse from the source to the far end of this lead.
  quantity::Metre unfused = {};
};

/// One for each lead that a source can drive current into, in the order of the sheet.
[[nodiscard]] std::vector<LeadGuard> lead_guards(const build::Build& build, const Feeding& feeding);

/// How long a lead from a pack may be before its fuse. Seven inches are the boat builders' rule
/// (ABYC E-11, from memory).
inline constexpr quantity::Metre longest_unfused = quantity::Metre::of_si(0.18);

}  // namespace tideover::finding
