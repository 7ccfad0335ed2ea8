/// Coordination for programs.
#pragma once

#include "question/coordination.hpp"
#include "service/json.hpp"

namespace tideover::service {

/// `headline`; `leads`: each with what it carries and withstands, its protection and the short
/// circuit of every source; `fuses_in_a_row`: the stretches of current and which goes first in
/// each; `lone_fuses`; `basis` and `cautions`. In SI units, named by the keys.
[[nodiscard]] Json::Object coordination_json(const question::Coordination& answer);

}  // namespace tideover::service
