#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/carried.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"
#include "part/fuse/fuse.hpp"

namespace tideover::finding {

namespace {

using quantity::Ampere;

/// What a fuse may carry for good in the warmest air: its style's share of what is rated there.
Ampere carries_for_good(const part::Fuse& fuse, quantity::Temperature air) {
  return part::continuous_share(fuse.style).si() * fuse.rated_at(air);
}

Finding finding_of(const part::Fuse& fuse, const Carried& carried, quantity::Temperature air) {
  const Ampere allowed = carries_for_good(fuse, air);
  Finding finding =
      measured_against<Ampere>(fuse.name, carried.size_a, allowed.si(), Limits::Above);
  if (carried.is_too_much) finding.answer = Answer::Fails;
  finding.sentence =
      fmt::format("{} carries {}, {}; of its {} it may carry {} for good at {}, {:.0f} %.",
                  fuse.name, shown<Ampere>(carried.size_a, 3), carried.when,
                  quantity::show(fuse.rated.nominal()), shown<Ampere>(allowed.si(), 3),
                  quantity::show(air), 100.0 * (allowed / fuse.rated.nominal()).si());
  if (finding.answer == Answer::Holds) return finding;
  const double share = (allowed / fuse.rated.nominal()).si();
  const Ampere least = Ampere::of_si(carried.size_a / (1.0 - tight_share) / share);
  const auto rating = fuse_from(fuse.style, least);
  finding.advice = fmt::format("{}: rated = {} or more, as far as the leads behind it allow.",
                               fuse.name, rating ? quantity::show(*rating) : next_larger(least));
  finding.brief = fuse.name + " carries more than it may for good";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Fuse* fuse : parts_of<part::Fuse>(evidence.build)) {
    const auto carried = carried_by(evidence, fuse->name, "current", "continuous current");
    if (carried) found.push_back(finding_of(*fuse, *carried, evidence.build.needs.ambient.high()));
  }
  return found;
}

}  // namespace

const Rule& fuse_loading() {
  static const Rule rule{
      .key = "fuse_loading",
      .title = "A fuse in daily use",
      .words =
          "A fuse that carries nearly what it is rated for ages and opens one day for no "
          "reason. One rated after UL, and a blade, carries three quarters of it for good; one "
          "rated after IEC 60127 all of it at 23 degC; both less where it is warm.",
      .formula = "I <= 0.75 I_rated (UL, blade) or I_rated (IEC), at 23 degC",
      .source =
          "75 %: EDN, 26 September 1996 (read), for blades common practice; IEC 60127 ratings "
          "from memory",
      .caution = "",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
