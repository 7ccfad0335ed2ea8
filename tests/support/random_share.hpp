#pragma once

#include <cstdint>
#include <vector>

namespace tideover::test {

/// The seeds `first` to `last` of a test with random builds: all of them, or where the build of
/// the tests is a slow one (sanitizers, coverage) the first of them, as many as the percentage
/// TIDEOVER_RANDOM_SHARE of the preset leaves and two at least. A test that goes through fewer
/// says so in its messages.
[[nodiscard]] std::vector<std::uint64_t> seeds(std::uint64_t first, std::uint64_t last);

}  // namespace tideover::test
