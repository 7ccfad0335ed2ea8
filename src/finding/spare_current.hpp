/// What an adapter leaves for a charger beside everything else that hangs on it.
#pragma once

#include <string>

#include "finding/demand.hpp"
#include "part/adapter/adapter.hpp"

namespace tideover::finding {

struct SpareCurrent {
  const part::Charger* charger = nullptr;  ///< never null
  quantity::Volt fed;                      ///< what the adapter brings at full load
  quantity::Ampere spare;                  ///< negative where the rest alone is too much

  /// What the charger takes from the adapter at a limit.
  [[nodiscard]] quantity::Ampere taken(quantity::Ampere limit) const {
    return input_current(*charger, fed, limit);
  }
  /// The setting that leaves a tenth of the spare current unused at the upper end of the charger's
  /// tolerance, in steps of 10 mA: "charger: current = 880 mA or less".
  [[nodiscard]] std::string advice() const;
};
/// The charger hangs on the adapter.
[[nodiscard]] SpareCurrent spare_current(const build::Build& build, const Rails& rails,
                                         const part::Adapter& adapter,
                                         const part::Charger& charger);

}  // namespace tideover::finding
