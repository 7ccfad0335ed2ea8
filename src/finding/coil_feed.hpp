/// What a relay's coil gets from its rail, and what it needs of it.
#pragma once

#include <vector>

#include "finding/feed.hpp"
#include "part/relay/relay.hpp"

namespace tideover::finding {

/// Voltage over coil and what lies before it that drives `current` through a coil at `coil`, the
/// series diodes as warm as the air.
[[nodiscard]] quantity::Volt rail_for(const part::Relay& relay, quantity::Ampere current,
                                      quantity::Temperature coil, quantity::Temperature air);
/// Temperature of a coil that stands at `rail` for good.
[[nodiscard]] quantity::Temperature settled_coil(const part::Relay& relay, quantity::Volt rail,
                                                 quantity::Temperature air);
/// What a source still puts on the coil and its series parts at the least, diodes in the way
/// taken off.
[[nodiscard]] quantity::Volt lowest_at_coil(const Feeding& feeding, const part::Relay& relay,
                                            const Source& source);
[[nodiscard]] quantity::Volt highest_at_coil(const Feeding& feeding, const part::Relay& relay,
                                             const Source& source);
/// Sources that feed the coil, a step-up among them.
[[nodiscard]] std::vector<const Source*> coil_sources(const Feeding& feeding,
                                                      const part::Relay& relay);

}  // namespace tideover::finding
