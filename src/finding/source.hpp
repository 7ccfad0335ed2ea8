/// What can drive current into a build, and how much.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/build.hpp"

namespace tideover::finding {

/// A pack, an adapter, a converter or a charger.
struct Source {
  const part::Part* part = nullptr;  ///< never null
  build::TerminalName plus;
  build::TerminalName minus;
  quantity::Volt highest;  ///< at its plus without load, tolerance and a full pack included
  quantity::Volt lowest;   ///< what it still gives when worn, empty or at its lower tolerance
  /// What it gives into a short circuit at most, for good; nothing: what its resistance lets
  /// through.
  std::optional<quantity::Ampere> limit;
  quantity::Ohm least_resistance;  ///< new, warm and full: for the highest current
  quantity::Ohm most_resistance;   ///< worn and empty: for the lowest
  quantity::Farad capacitance;     ///< at its output
  quantity::Ohm capacitor_resistance;
  /// It sets the voltage alone: through the diode of a step-up that is not isolated a short circuit
  /// behind it is one of what feeds it.
  bool is_through = false;
};

/// In the order of the sheet; the taps of a pack, each to the pack's minus, after its plus.
[[nodiscard]] std::vector<Source> sources_of(const build::Build& build);

}  // namespace tideover::finding
