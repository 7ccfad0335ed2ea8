/// Bands for programs, and the partial tallies that shares of the draws are handed over as.
#pragma once

#include "base/result.hpp"
#include "question/bands.hpp"
#include "service/json.hpp"

namespace tideover::service {

/// Everything but a partial tally. Times are in seconds; other bands name their unit. null: never.
[[nodiscard]] Json::Object bands_json(const question::Bands& bands);

/// One share of the draws: what was drawn, and the tally as whole numbers.
struct PartialTally {
  std::uint64_t seed = 1;
  std::uint64_t draws_meant = 0;
  std::uint64_t share = 1;
  std::uint64_t of_shares = 1;
  Json values;  ///< what was drawn: those of the sheet it is put together with must be the same
  question::BandTally tally;
};
/// The values that bands of a build draw, as `PartialTally::values` has them.
[[nodiscard]] Json drawn_values_json(const question::BandInputs& inputs);

[[nodiscard]] Json::Object partial_json(const PartialTally& partial);
/// A problem without place where `json` is no such tally.
[[nodiscard]] base::Result<PartialTally> read_partial(const Json& json);

}  // namespace tideover::service
