#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"

namespace tideover::finding {

using quantity::Ampere;

namespace {

struct Prospective {
  Ampere current;
  const Source* source = nullptr;
};

/// A short circuit straight behind the fuse, from the source that can drive most into it.
Prospective prospective_at(const Feeding& feeding, const part::Fuse& fuse) {
  Prospective most;
  for (const char* end : {"a", "b"}) {
    const build::TerminalName at{fuse.name, end};
    for (const Feed& feed : feeding.feeds(at, &fuse)) {
      const Ampere current = highest_prospective(*feed.source, feeding.path(*feed.source, at));
      if (current > most.current) most = {current, feed.source};
    }
  }
  return most;
}

Finding unknown(const part::Fuse& fuse, const Prospective& most) {
  const std::string what =
      fuse.breaking_ac.given
          ? fmt::format("its {} are for alternating current and imply nothing for direct current",
                        quantity::show(fuse.breaking_ac.nominal()))
          : "what it can break at direct current is not given";
  return {
      .part = fuse.name,
      .answer = Answer::Unknown,
      .sentence = fmt::format("{} would have to break {} from {}; {}.", fuse.name,
                              shown<Ampere>(most.current.si(), 3), most.source->part->name, what),
      .advice = fmt::format(
          "{}: breaking_dc = what its maker states; ask for {} or more at direct current.",
          fuse.name, rounded_up(most.current, Ampere::of_si(1.0))),
      .unknown = {fuse.name + ".breaking_dc"}};
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::Fuse* fuse : parts_of<part::Fuse>(evidence.build)) {
    const Prospective most = prospective_at(feeding, *fuse);
    if (most.source == nullptr) continue;
    if (!fuse->breaking_capacity_dc()) {
      found.push_back(unknown(*fuse, most));
      continue;
    }
    Finding finding = measured_against<Ampere>(fuse->name, most.current.si(),
                                               fuse->breaking_dc.low_si, Limits::Above);
    finding.sentence =
        fmt::format("{} would have to break {} from {}; it can break {}.", fuse->name,
                    shown<Ampere>(most.current.si(), 3), most.source->part->name,
                    shown<Ampere>(fuse->breaking_dc.low_si, 3));
    if (finding.answer != Answer::Holds) {
      finding.advice =
          fmt::format("{}: breaking_dc = {} or more.", fuse->name,
                      rounded_up(most.current / (1.0 - tight_share), Ampere::of_si(1.0)));
      finding.brief = fuse->name + " cannot break a short circuit";
    }
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& fuse_breaking() {
  static const Rule rule{
      .key = "fuse_breaking",
      .title = "What a fuse can break",
      .words =
          "The fuse must be able to break what the pack drives into a short circuit right behind "
          "it, as direct current. A breaking capacity for alternating current says nothing: "
          "there the arc goes out by itself a hundred times a second.",
      .formula = "I_short = U_full / (R_pack + R_way) <= I_breaking, DC",
      .source =
          "IEC 60127-1 and ISO 8820-3: breaking capacity, from memory; U / R: common practice",
      .caution =
          "A fuse that breaks more than it can bursts. Glass fuses belong behind limited sources.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
