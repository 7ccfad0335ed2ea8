#include "finding/lead_short.hpp"

#include <algorithm>
#include <cmath>

namespace tideover::finding {

using quantity::Ampere;
using quantity::Second;

ShortCurrent short_along(const Feeding& feeding, const Source& source, const build::Lead& lead) {
  const Path from = feeding.path(source, lead.from);
  const Path to = feeding.path(source, lead.to);
  const Path& near = from.resistance < to.resistance ? from : to;
  const Path& far = from.resistance < to.resistance ? to : from;
  return {highest_prospective(source, near), lowest_prospective(source, far)};
}

ShortCurrent short_at(const Feeding& feeding, const Source& source, const build::TerminalName& at) {
  const Path path = feeding.path(source, at);
  return {highest_prospective(source, path), lowest_prospective(source, path)};
}

ShortCurrent short_behind(const Feeding& feeding, const LeadGuard& guard) {
  const Source& source = *guard.worst.source;
  return guard.is_return ? short_at(feeding, source, guard.at)
                         : short_along(feeding, source, *guard.lead);
}

std::optional<Second> standing_time(const part::Wire& wire, Ampere current,
                                    quantity::Temperature air) {
  const Ampere carries = wire.ampacity(air).current;
  if (current <= carries) return std::nullopt;
  if (current <= for_an_hour_share * carries) return overload_until;
  return std::min(adiabatic_until, wire.withstand() / (current * current));
}

std::vector<Ampere> standing_corners(const part::Wire& wire, quantity::Temperature air) {
  const Ampere carries = wire.ampacity(air).current;
  const double adiabatic_a = std::sqrt((wire.withstand() / adiabatic_until).si());
  std::vector<Ampere> corners{carries, for_an_hour_share * carries, Ampere::of_si(adiabatic_a)};
  std::ranges::sort(corners);
  return corners;
}

}  // namespace tideover::finding
