#include "question/coordination.hpp"

#include <algorithm>

#include "build/parts_of.hpp"
#include "finding/fuse_pair.hpp"

namespace tideover::question {

using finding::Feeding;
using finding::FusePair;
using finding::Source;
using quantity::Ampere;

namespace {

Ampere highest_behind(const Feeding& feeding, const Source& source, const part::Fuse& fuse) {
  return highest_prospective(source, path_through(feeding, source, fuse));
}

/// Each pair once, as the source that drives most through both sees it.
std::vector<FusesInARow> fuses_in_a_row(const build::Build& build, const Feeding& feeding) {
  std::vector<FusesInARow> rows;
  for (const FusePair& pair : finding::fuse_pairs(build, feeding)) {
    const Ampere highest = highest_behind(feeding, *pair.source, *pair.behind);
    const auto known = std::ranges::find_if(rows, [&](const FusesInARow& row) {
      return row.race.before == pair.before && row.race.behind == pair.behind;
    });
    if (known != rows.end() && known->race.highest >= highest) continue;
    FusesInARow row{pair.source->part, fuse_race(*pair.before, *pair.behind, highest)};
    if (known == rows.end()) {
      rows.push_back(std::move(row));
    } else {
      *known = std::move(row);
    }
  }
  std::ranges::stable_sort(rows, {}, [](const FusesInARow& row) {
    return row.race.is_the_wrong_way() ? 0 : row.race.is_selective() ? 2 : 1;
  });
  return rows;
}

std::vector<LoneFuse> lone_fuses(const build::Build& build, const Feeding& feeding,
                                 const std::vector<FusesInARow>& rows) {
  std::vector<LoneFuse> all;
  for (const auto* fuse : build::parts_of<part::Fuse>(build)) {
    const bool is_in_a_row = std::ranges::any_of(rows, [&](const FusesInARow& row) {
      return row.race.before == fuse || row.race.behind == fuse;
    });
    if (is_in_a_row) continue;
    LoneFuse lone{.fuse = fuse};
    for (const Source& source : feeding.sources()) {
      const bool feeds_it = !source.is_through && (feeding.feed(source, {fuse->name, "a"}, fuse) ||
                                                   feeding.feed(source, {fuse->name, "b"}, fuse));
      if (!feeds_it || fuse->blown) continue;
      const Ampere highest = highest_behind(feeding, source, *fuse);
      if (lone.source != nullptr && highest <= lone.highest) continue;
      lone.source = source.part;
      lone.highest = highest;
    }
    if (lone.source != nullptr) all.push_back(lone);
  }
  return all;
}

}  // namespace

Coordination coordination(const build::Build& build) {
  const Feeding feeding(build);
  Coordination answer{.leads = lead_covers(build, feeding),
                      .rows = fuses_in_a_row(build, feeding),
                      .alone = {},
                      .air = build.needs.ambient.high()};
  answer.alone = lone_fuses(build, feeding, answer.rows);
  return answer;
}

}  // namespace tideover::question
