/// A pack that is cut off before anything has happened.
#pragma once

#include "finding/evidence.hpp"

namespace tideover::finding {

/// The case in which it is, or null; none where the sheet itself starts the pack otherwise.
[[nodiscard]] const Case* pack_off_at_start(const Evidence& evidence);

}  // namespace tideover::finding
