/// The greatest current that a pack is asked for.
#pragma once

#include <string_view>

#include "finding/pack_company.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

/// In amperes: all that the pack feeds at their most, just before it is cut off, where the same
/// power takes the most current; or more, where a run exceeds that rating of `part`.
[[nodiscard]] Greatest pack_demand(const Evidence& evidence, const PackCompany& company,
                                   std::string_view part, std::string_view rating);

}  // namespace tideover::finding
