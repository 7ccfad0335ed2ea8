/// Two fuses that a short circuit's current runs through one after the other.
#pragma once

#include <vector>

#include "finding/feed.hpp"

namespace tideover::finding {

/// `before` stands in every way from the source to either end of `behind`.
struct FusePair {
  const Source* source = nullptr;
  const part::Fuse* before = nullptr;
  const part::Fuse* behind = nullptr;
};

/// Of every source that drives a current of its own, in the order of the sheet.
[[nodiscard]] std::vector<FusePair> fuse_pairs(const build::Build& build, const Feeding& feeding);

/// From a source through a fuse, to that of its ends which is farther away. Precondition: the
/// source feeds the fuse.
[[nodiscard]] Path path_through(const Feeding& feeding, const Source& source,
                                const part::Fuse& fuse);

}  // namespace tideover::finding
