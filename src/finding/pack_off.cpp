#include "finding/pack_off.hpp"

#include "build/parts_of.hpp"
#include "finding/rule_list.hpp"
#include "part/pack/pack.hpp"

namespace tideover::finding {

namespace {

std::vector<Finding> ask(const Evidence& evidence) {
  const Case* const in = pack_off_at_start(evidence);
  if (in == nullptr) return {};
  const auto packs = parts_of<part::Pack>(evidence.build);
  return {{.part = packs.empty() ? "pack" : packs.front()->name,
           .answer = Answer::Fails,
           .sentence = "The pack is cut off from the start and feeds nothing (" + in->words + ").",
           .advice =
               "measure what the protection board sees of each group, and look up what it waits "
               "for before it lets the pack discharge again.",
           .brief = "the pack is cut off from the start"}};
}

}  // namespace

const Case* pack_off_at_start(const Evidence& evidence) {
  const build::Start& start = evidence.build.start;
  if (!start.is_settled || !start.charge.empty()) return nullptr;
  for (const Case& one : evidence.cases) {
    const auto& cut_offs = one.record->pack_cut_offs;
    if (!cut_offs.empty() && cut_offs.front().at.si() <= 0.0) return &one;
  }
  return nullptr;
}

const Rule& pack_off() {
  static const Rule rule{
      .key = "pack_off",
      .title = "A pack that is cut off from the start",
      .words = "After days on the mains the pack stands ready: the board has not cut it off.",
      .formula = "no cut-off before the run begins",
      .source = "common practice, no source",
      .caution = {},
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
