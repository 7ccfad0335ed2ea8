#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/lead_short.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::AmpereSquaredSecond;

namespace {

/// Let-through energy of the fuse at its latest; nothing if it takes longer than
/// adiabatic_until.
std::optional<AmpereSquaredSecond> let_through(const part::Fuse& fuse, Ampere current) {
  const auto time = fuse.opening_time(current, part::FuseLaw::Latest);
  if (!time || *time > adiabatic_until) return std::nullopt;
  return current * current * *time;
}

/// The largest fuse of its style that surely opens in time.
std::string smaller_fuse(const part::Fuse& fuse, Ampere current) {
  part::Fuse other = fuse;
  other.melting = {};
  auto rating = fuse_up_to(fuse.style, fuse.rated.nominal());
  while (rating) {
    other.rated = quantity::Value<Ampere>(*rating);
    if (let_through(other, current)) {
      return fmt::format("{}: rated = {} or less.", fuse.name, quantity::show(*rating));
    }
    rating = fuse_up_to(fuse.style, 0.999 * *rating);
  }
  return fmt::format("{}: one that opens sooner, or thicker and shorter leads before it.",
                     fuse.name);
}

/// The short circuit draws too little to open the fuse soon: where it opens within the hour the
/// lead may carry 1.45 times its ampacity meanwhile, else once.
Finding of_slow(const LeadGuard& guard, const part::Fuse& fuse, Ampere current,
                quantity::Temperature air) {
  const std::string name = "leads." + guard.lead->name;
  const Source& source = *guard.worst.source;
  const auto opens = fuse.opening_time(current, part::FuseLaw::Latest);
  const bool opens_at_all = opens && *opens <= overload_until;
  const Ampere carries =
      (opens_at_all ? for_an_hour_share : 1.0) * guard.lead->wire.ampacity(air).current;
  Finding finding = measured_against<Ampere>(name, current.si(), carries.si(), Limits::Above);
  finding.sentence = fmt::format(
      "A short circuit behind {} draws only {} from {}{}; {} of {} {}, and the lead carries {} {}.",
      name, shown<Ampere>(current.si(), 3), source.part->name,
      source.limit ? " at its limit" : ", worn and empty", fuse.name,
      quantity::show(fuse.rated.nominal()),
      opens_at_all ? "opens within the hour" : "need not open", shown<Ampere>(carries.si(), 3),
      opens_at_all ? "for so long" : "for good");
  if (finding.answer != Answer::Holds) {
    finding.advice = smaller_fuse(fuse, current);
  }
  finding.brief = name + " does not stand a short circuit";
  return finding;
}

Finding of_fast(const LeadGuard& guard, const part::Fuse& fuse, AmpereSquaredSecond integral,
                Ampere current) {
  const part::Wire& wire = guard.lead->wire;
  const std::string name = "leads." + guard.lead->name;
  Finding finding = measured_against<AmpereSquaredSecond>(name, integral.si(),
                                                          wire.withstand().si(), Limits::Above);
  finding.sentence = fmt::format(
      "{} of {} lets {} through at the latest when {} is shorted at {}; the lead stands {}.",
      fuse.name, quantity::show(fuse.rated.nominal()), quantity::show(integral), name,
      shown<Ampere>(current.si(), 3), quantity::show(wire.withstand()));
  const auto size = size_that_stands(wire, integral / (1.0 - tight_share));
  if (finding.answer != Answer::Holds && size) {
    finding.advice = fmt::format("{}: size = {} or more.", name, size_text(*size));
  }
  finding.brief = name + " does not stand a short circuit";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding feeding(evidence.build);
  std::vector<Finding> found;
  for (const LeadGuard& guard : lead_guards(evidence.build, feeding)) {
    const part::Fuse* const fuse = guard.worst.fuse;
    if (fuse == nullptr) continue;
    const ShortCurrent current = short_behind(feeding, guard);
    const auto at_most = let_through(*fuse, current.highest);
    const auto at_least = let_through(*fuse, current.lowest);
    if (!at_most || !at_least) {
      found.push_back(of_slow(guard, *fuse, current.lowest, evidence.build.needs.ambient.high()));
    } else {
      const bool is_low_worse = *at_least > *at_most;
      found.push_back(of_fast(guard, *fuse, std::max(*at_least, *at_most),
                              is_low_worse ? current.lowest : current.highest));
    }
  }
  return found;
}

}  // namespace

const Rule& lead_withstand() {
  static const Rule rule{
      .key = "lead_withstand",
      .title = "A lead until its fuse has opened",
      .words =
          "Until the fuse has opened, a short circuit heats the lead and nothing cools it. The "
          "fuse is taken at its latest, the pack once new and full, once worn and empty: the "
          "smaller current may be the worse one, because the fuse takes its time. Where it is so "
          "small that the fuse takes longer than 5 s, the lead has to carry it meanwhile.",
      .formula =
          "I^2 t_latest <= k^2 S^2, k = 115 A s^0.5/mm2 for copper in PVC; t <= 5 s; else I <= "
          "1.45 I_z",
      .source =
          "IEC 60364-4-43, 433.1, 434.5.2, table 43A, from memory; the fuse's gates stand with its "
          "standard",
      .caution = "A lead that has carried a short circuit is replaced, not looked at.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
