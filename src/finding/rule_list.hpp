/// Every rule by name; each is told in the file of that name.
#pragma once

#include "finding/finding.hpp"

namespace tideover::finding {

[[nodiscard]] const Rule& charge_voltage();

}  // namespace tideover::finding
