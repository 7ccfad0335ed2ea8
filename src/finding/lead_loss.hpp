/// Volts and energy that leads take on the way.
#pragma once

#include <string>
#include <vector>

#include "build/build.hpp"
#include "run/record.hpp"

namespace tideover::finding {

/// One lead in one run, its resistance taken in the air it lies in.
struct LeadLoss {
  const build::Lead* lead = nullptr;
  quantity::Ampere lasting;  ///< carried for a second or more in all
  quantity::Ampere highest;  ///< however short
  quantity::Volt drop;       ///< at the lasting current
  quantity::Joule lost;      ///< over the whole run
  quantity::Ratio ampacity;  ///< the lasting current over what it may carry for good
};
/// In the order of the sheet. A record without samples gives none.
[[nodiscard]] std::vector<LeadLoss> lead_losses(const build::Build& build,
                                                const run::Record& record,
                                                quantity::Temperature ambient);

/// What a load loses in the leads that carry its current and nothing else's.
struct WayLoss {
  std::string load;
  quantity::Ampere current;        ///< the load's greatest for a second or more
  quantity::Volt fed;              ///< the voltage at the load while it takes that
  quantity::Volt drop;             ///< in all its own leads, at that current
  std::vector<std::string> leads;  ///< its own leads, the one that takes most first
  [[nodiscard]] double share() const { return fed.si() > 0.0 ? (drop / fed).si() : 0.0; }
};
/// One a load. A lead is a load's own where it hangs in a row with it (through fuses, plugs and
/// switches, to the first point where paths meet) and carries the same current.
[[nodiscard]] std::vector<WayLoss> way_losses(const build::Build& build, const run::Record& record,
                                              quantity::Temperature ambient);

/// More than this share of the voltage lost in a load's own leads is worth thicker ones:
/// IEC 60364-5-52, table G.52.1, uses other than lighting on a public supply, from memory.
inline constexpr double wire_loss_share = 0.05;

}  // namespace tideover::finding
