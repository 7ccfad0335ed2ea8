#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/calming.hpp"
#include "finding/instant.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using quantity::Second;

namespace {

/// Regulators stutter for a moment while everything collapses behind a pack that has been cut off,
/// and while everything starts again: nobody is served then.
bool is_harmless(const run::Chatter& chatter, const run::Record& record) {
  constexpr double moment_s = 10.0;
  if ((chatter.last - chatter.first).si() > moment_s) return false;
  return std::ranges::any_of(darks_of(record), [&](const Dark& dark) {
    return std::ranges::any_of(record.pack_cut_offs, [&](const run::Extreme& cut_off) {
      if (cut_off.at < dark.begins || cut_off.at > dark.ends) return false;
      const double after_cut_s = (chatter.first - cut_off.at).si();
      const double after_return_s = (chatter.first - dark.ends).si();
      return after_cut_s >= 0.0 &&
             (after_cut_s < moment_s || (after_return_s >= 0.0 && after_return_s < moment_s));
    });
  });
}

Finding finding_of(const build::Build& build, const run::Chatter& chatter, const Case& in) {
  const quantity::Measure time = quantity::measure_of<Second>();
  Finding finding{
      .part = chatter.part, .answer = Answer::Tight, .measured = Figure{chatter.period.si(), time}};
  finding.sentence =
      fmt::format("{} {}, {} times, every {}, from {} on.", chatter.part, chatter.words,
                  chatter.times, quantity::show(chatter.period), when_and_where(chatter.first, in));
  finding.advice = calmed_by(build, chatter.part);
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const Case& one : evidence.cases) {
    for (const run::Chatter& chatter : one.record->chatters) {
      const bool is_told = std::ranges::find(found, chatter.part, &Finding::part) != found.end();
      if (is_told || is_harmless(chatter, *one.record)) continue;
      found.push_back(finding_of(evidence.build, chatter, one));
    }
  }
  return found;
}

}  // namespace

const Rule& chatter() {
  static const Rule rule{
      .key = "chatter",
      .title = "A part that switches to and fro",
      .words =
          "Nothing switches to and fro: a board that cuts, recovers, reconnects and cuts again "
          "wants more distance between the values at which it acts and lets go.",
      .formula = "the same event of one part, six times or more in a stretch",
      .source = "common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
