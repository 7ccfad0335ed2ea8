/// Coordination: what protects each lead, and which of two fuses in a row clears first. Asked of
/// the sheet alone, with every tolerance in the bad direction; nothing is run.
#pragma once

#include <vector>

#include "question/fuse_race.hpp"
#include "question/lead_cover.hpp"

namespace tideover::question {

/// Two fuses in a row and the source that drives most through both.
struct FusesInARow {
  const part::Part* source = nullptr;  ///< never null
  FuseRace race;
};

/// A fuse that stands in a row with none.
struct LoneFuse {
  const part::Part* source = nullptr;  ///< the one that drives most through it; never null
  const part::Fuse* fuse = nullptr;    ///< never null
  quantity::Ampere highest = {};       ///< prospective current behind it
};

/// Refers to the build, which must outlive it.
struct Coordination {
  std::vector<LeadCover> leads;   ///< what nothing protects first
  std::vector<FusesInARow> rows;  ///< the wrong way round first, then the uncertain ones
  std::vector<LoneFuse> alone;    ///< in the order of the sheet; without those that nothing feeds
  quantity::Temperature air;      ///< in which leads are judged: the warmest
};

[[nodiscard]] Coordination coordination(const build::Build& build);

}  // namespace tideover::question
