#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/lead_guard.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"
#include "finding/wiring.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Metre;

namespace {

std::string named(const build::Lead& lead) { return "leads." + lead.name; }

/// "f_pack lets 5 A through for good", "mains24 gives 2.5 A at most".
std::string limited_by(const LeadGuard& guard) {
  const std::string most = shown<Ampere>(guard.worst.most_a);
  std::string words =
      guard.worst.fuse != nullptr
          ? fmt::format("{} lets {} through for good", guard.worst.fuse->name, most)
          : fmt::format("{} gives {} at most", guard.worst.source->part->name, most);
  if (guard.is_return) return words + " to what returns through it";
  if (guard.most_a <= guard.worst.most_a) return words;
  return words + fmt::format(", all that feeds it together {}", shown<Ampere>(guard.most_a));
}

std::string advice_for(const LeadGuard& guard, const part::Ampacity& ampacity,
                       quantity::Temperature air) {
  const build::Lead& lead = *guard.lead;
  const part::Fuse* const fuse = guard.worst.fuse;
  const auto style = fuse != nullptr ? fuse->style : part::FuseStyle::TimeLag;
  const double others_a = guard.most_a - guard.worst.most_a;
  const auto rating = fuse_up_to(
      style, fuse != nullptr ? ampacity.current - Ampere::of_si(others_a) : ampacity.current);
  const auto size = size_for(lead.wire, Ampere::of_si(guard.most_a), air);
  std::string advice;
  if (rating && fuse != nullptr) {
    advice = fmt::format("{}: rated = {} or less", fuse->name, quantity::show(*rating));
  } else if (rating) {
    advice = fmt::format("a fuse of {} or less at the beginning of {}", quantity::show(*rating),
                         named(lead));
  }
  if (size) {
    if (!advice.empty()) advice += ", or ";
    advice += fmt::format("{}: size = {} or more", named(lead), size_text(*size));
  }
  return advice + ".";
}

Finding unfused(const LeadGuard& guard, const part::Ampacity& ampacity) {
  const build::Lead& lead = *guard.lead;
  const std::string& source = guard.worst.source->part->name;
  Finding finding =
      measured_against<Metre>(named(lead), guard.unfused.si(), longest_unfused.si(), Limits::Above);
  finding.sentence = fmt::format(
      "{} has no fuse before it: {} of wire from {}; {} are the most before a fuse.", named(lead),
      shown<Metre>(guard.unfused.si()), source, shown<Metre>(longest_unfused.si()));
  if (finding.answer == Answer::Holds) return finding;
  const auto rating = fuse_up_to(part::FuseStyle::Blade, ampacity.current);
  const auto small = fuse_up_to(part::FuseStyle::TimeLag, ampacity.current);
  finding.advice = fmt::format("a fuse of {} or less within {} of {}.",
                               quantity::show(rating ? *rating : small.value_or(ampacity.current)),
                               shown<Metre>(longest_unfused.si()), source);
  const double length_m = lead.wire.length.si() + longest_unfused.si() - guard.unfused.si();
  if (length_m > 0.0) {
    finding.advice = fmt::format("{}: length = {} or less, or {}", named(lead),
                                 shown<Metre>(length_m), finding.advice);
  }
  finding.brief = named(lead) + " has no fuse before it";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const quantity::Temperature air = evidence.build.needs.ambient.high();
  std::vector<Finding> found;
  for (const LeadGuard& guard : guards_of(evidence)) {
    const part::Ampacity ampacity = guard.lead->wire.ampacity(air);
    if (guard.most_a == unlimited_a) {
      found.push_back(unfused(guard, ampacity));
      continue;
    }
    Finding finding = measured_against<Ampere>(named(*guard.lead), guard.most_a,
                                               ampacity.current.si(), Limits::Above);
    const bool is_by_itself = guard.worst.fuse == nullptr && finding.answer != Answer::Fails;
    finding.sentence =
        fmt::format("{} may carry {} at {} ({}); {}{}.", named(*guard.lead),
                    shown<Ampere>(ampacity.current.si(), 3), quantity::show(air), ampacity.table,
                    limited_by(guard), is_by_itself ? ", so that it needs no fuse" : "");
    if (finding.answer == Answer::Fails) {
      finding.advice = advice_for(guard, ampacity, air);
      finding.brief = named(*guard.lead) + " is too thin for what guards it";
    }
    // A fuse exactly as large as the lead carries protects it: nothing about it is near a limit.
    if (finding.answer == Answer::Tight) finding.answer = Answer::Holds;
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& fuse_for_each_lead() {
  static const Rule rule{
      .key = "fuse_for_each_lead",
      .title = "A fuse for each lead",
      .words =
          "A fuse protects the thinnest lead behind it, not the device: what may flow for good "
          "must not be more than each lead behind it carries in the warmest air. A lead that "
          "is fed by something that cannot give that much needs none. What lies between a pack "
          "and its fuse nothing protects, so that it is kept short.",
      .formula = "I_rated of the fuse, or I_limit of the source <= I_z; l_unfused <= 180 mm",
      .source =
          "IEC 60364-4-43, 433.1 and 433.3, from memory; the length before a fuse: ABYC E-11, "
          "from memory",
      .caution =
          "A shorted lead without a fuse glows within seconds. Keep what lies before the fuse "
          "short, apart and doubly insulated.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
