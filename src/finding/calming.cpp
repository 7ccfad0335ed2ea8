#include "finding/calming.hpp"

#include <fmt/format.h>

#include "part/adapter/adapter.hpp"
#include "part/charger/charger.hpp"
#include "part/converter/converter.hpp"
#include "part/load/load.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/relay/relay.hpp"
#include "quantity/show.hpp"

namespace tideover::finding {

using quantity::Volt;

std::string calmed_by(const build::Build& build, const std::string& name) {
  const part::Part* const part = build.find(name);
  if (const auto* const board = dynamic_cast<const part::ProtectionBoard*>(part)) {
    return fmt::format(
        "{}: under_voltage_release above {}, or under_voltage_released_by = \"charger\"; and a "
        "converter that locks out only below its cut-off.",
        name, quantity::show(board->under_voltage_release.nominal()));
  }
  if (dynamic_cast<const part::Charger*>(part) != nullptr) {
    return name + ": begins_again_below lower, or a current that its adapter can spare.";
  }
  if (const auto* const board = dynamic_cast<const part::Converter*>(part)) {
    return fmt::format(
        "{}: lockout_release above {}, further from where it stops ({}); or less resistance before "
        "it.",
        name, quantity::show(Volt::of_si(board->limits().starts_v)),
        quantity::show(Volt::of_si(board->limits().stops_v)));
  }
  if (const auto* const relay = dynamic_cast<const part::Relay*>(part)) {
    return fmt::format(
        "{}: one whose release lies further below its pick-up ({} and {} cold), or a stiffer rail.",
        name, quantity::show(relay->release_cold()), quantity::show(relay->pick_up_cold()));
  }
  if (dynamic_cast<const part::Adapter*>(part) != nullptr) {
    return name + ": it is overloaded and tries again and again: less on it, or a stronger one.";
  }
  // A device has no thresholds to set: what it wants is a voltage that stays.
  if (const auto* const load = dynamic_cast<const part::Load*>(part)) {
    return fmt::format(
        "{}: what feeds it must stay above {} while it draws: a higher voltage, less drop in its "
        "leads, a converter that still holds its output.",
        name, quantity::show(load->accepts.low()));
  }
  return name + ": more distance between the values at which it acts and lets go again.";
}

}  // namespace tideover::finding
