/// What protects each lead when something behind it is shorted, and whether it acts in time.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/lead_short.hpp"

namespace tideover::question {

/// What ends a short circuit, or keeps it small.
enum class Guard {
  Nothing,
  Fuse,
  Board,  ///< a protection board: electronics in the pack's minus, no fuse
  Limit,  ///< the source's own current limit: the current goes on for good
};

/// One source that drives a short circuit at the far end of a lead.
struct LeadShort {
  const part::Part* source = nullptr;  ///< never null
  build::TerminalName plus;            ///< of the source: a tap counts by itself
  finding::ShortCurrent current = {};
  Guard guard{};
  const part::Part* device = nullptr;  ///< null: nothing
  /// The least current or, where the lead does not stand that or another is worse, the worst one.
  quantity::Ampere judged_at = {};
  std::optional<quantity::Second> opens = {};   ///< at the latest; nothing: it need not open
  std::optional<quantity::Second> stands = {};  ///< the lead; nothing: for good
  bool is_in_time = false;
};

/// From the worst on.
enum class Protection {
  None,   ///< nothing opens or limits a short circuit
  Late,   ///< the lead does not stand it until something has opened
  Thin,   ///< what flows for good is more than the lead carries
  Board,  ///< a protection board alone
  Limit,  ///< a source's own limit
  Fuse,
};

struct LeadCover {
  const build::Lead* lead = nullptr;  ///< never null
  bool is_return = false;             ///< the short circuit is at a user that returns through it
  Protection protection{};
  std::vector<LeadShort> shorts;             ///< one a source, the one that decides first
  quantity::Ampere carries;                  ///< for good, in the warmest air
  quantity::AmpereSquaredSecond withstands;  ///< let-through energy within 5 s
  /// What may flow for good of all sources together; nothing where nothing limits it.
  std::optional<quantity::Ampere> for_good;
  quantity::Metre unfused;  ///< where nothing limits it: wire from the source to the far end
  /// Nothing protects it, but it is no longer than practice allows before a fuse.
  [[nodiscard]] bool is_short() const { return unfused <= finding::longest_unfused; }
};

/// One for each lead that a source can drive current into: what nothing protects first, the longer
/// and thinner before the others, then by `Protection` and the order of the sheet.
[[nodiscard]] std::vector<LeadCover> lead_covers(const build::Build& build,
                                                 const finding::Feeding& feeding);

}  // namespace tideover::question
