/// One change of the sources tried by itself, from a settled start and a few seconds long: at the
/// draws that are hardest, or with something added to the build.
#pragma once

#include "build/build.hpp"
#include "question/source_change.hpp"

namespace tideover::question {

/// The mains goes when it likes, also in the middle of a burst: every load at the highest or the
/// lowest draw of the profile it is in.
enum class Draws { Highest, Lowest };
[[nodiscard]] std::string_view in_words(Draws draws);
/// Whether the two differ for any load.
[[nodiscard]] bool has_bursts(const build::Build& build);

struct Rehearsal {
  build::Build build;
  build::Timeline timeline;
};

/// `change` was found in `record`, of `timeline` of `build`, and is a planned one. What the
/// timeline did to mains and switches before it is done at the start, packs are charged as they
/// were just before it; then loads are given the time to boot. What the timeline changes while the
/// change is under way is changed too.
[[nodiscard]] Rehearsal rehearsal_of(const build::Build& build, const build::Timeline& timeline,
                                     const run::Record& record, const SourceChange& change,
                                     Draws draws);

/// The change in the record of its rehearsal: the last one. Nothing where the run never got there.
[[nodiscard]] std::optional<SourceChange> rehearsed(const run::Record& record,
                                                    const build::Build& build);

}  // namespace tideover::question
