#include "finding/fuse_pair.hpp"

#include <algorithm>

#include "build/parts_of.hpp"

namespace tideover::finding {

std::vector<FusePair> fuse_pairs(const build::Build& build, const Feeding& feeding) {
  std::vector<FusePair> pairs;
  for (const Source& source : feeding.sources()) {
    if (source.is_through) continue;
    for (const part::Fuse* behind : parts_of<part::Fuse>(build)) {
      const auto to_a = feeding.fuses_in_the_way(source, {behind->name, "a"});
      const auto to_b = feeding.fuses_in_the_way(source, {behind->name, "b"});
      for (const part::Fuse* before : to_a) {
        if (std::ranges::count(to_b, before) == 0 || before == behind) continue;
        pairs.push_back({&source, before, behind});
      }
    }
  }
  return pairs;
}

Path path_through(const Feeding& feeding, const Source& source, const part::Fuse& fuse) {
  const Path to_a = feeding.path(source, {fuse.name, "a"});
  const Path to_b = feeding.path(source, {fuse.name, "b"});
  return to_a.resistance < to_b.resistance ? to_b : to_a;
}

}  // namespace tideover::finding
