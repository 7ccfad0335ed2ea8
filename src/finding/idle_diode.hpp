/// Diodes that feed nothing while something goes without.
#pragma once

#include <optional>
#include <string>

#include "finding/evidence.hpp"

namespace tideover::finding {

/// The highest voltage from cathode to anode of a diode that carries next to nothing in any run,
/// while a device goes without; nothing where it has its work, lies across a device to catch what
/// comes backwards, or nobody wants for current.
[[nodiscard]] std::optional<double> idle_while_wanted_v(const Evidence& evidence,
                                                        const std::string& diode);

}  // namespace tideover::finding
