#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

struct Highest {
  double volts = 0.0;
  std::string why;     ///< "mains24 at no load"
  std::string source;  ///< the part to change
};

std::optional<Highest> highest_of(const Evidence& evidence, const Rails& rails,
                                  const part::Load& load) {
  std::optional<Highest> found;
  for (const Supply& source : supplies_of(evidence.build, rails, {load.name, "plus"})) {
    if (found && source.highest.si() <= found->volts) continue;
    found = Highest{source.highest.si(), source.why_highest, source.part};
  }
  if (const auto over = exceeded(evidence, load.name, "highest input voltage")) {
    const double volts = over->overload->worst.value_si;
    if (!found || volts > found->volts) found = Highest{volts, over->words(), "what feeds it"};
  }
  return found;
}

Finding finding_of(const part::Load& load, const Highest& highest) {
  const double high_v = load.accepts.high_si;
  Finding finding = measured_against<Volt>(load.name, highest.volts, high_v, Limits::Above);
  finding.margin = (high_v - highest.volts) / (high_v - load.accepts.low_si);
  finding.answer = answer_of(*finding.margin);
  finding.sentence = fmt::format("{} accepts up to {} and may get {}: {}.", load.name,
                                 shown<Volt>(high_v), shown<Volt>(highest.volts), highest.why);
  if (finding.answer == Answer::Holds) return finding;
  const double wanted_v = high_v - 1.01 * tight_share * (high_v - load.accepts.low_si);
  finding.advice =
      fmt::format("{}: {} or less at its highest, or a converter between it and {}.",
                  highest.source, shown<Volt>(std::floor(100.0 * wanted_v) / 100.0), load.name);
  finding.brief = load.name + " may get more than it accepts";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const part::Load* load : parts_of<part::Load>(evidence.build)) {
    const auto highest = highest_of(evidence, rails, *load);
    if (highest) found.push_back(finding_of(*load, *highest));
  }
  return found;
}

}  // namespace

const Rule& load_overfed() {
  static const Rule rule{
      .key = "load_overfed",
      .title = "A device fed above its rating",
      .words =
          "No source brings a device more than it accepts: not the adapter when nothing else "
          "hangs on it, and not the pack when it is full and still on the charger.",
      .formula =
          "U_source (1 + tolerance) <= U_high of the device; drops of diodes and leads do "
          "not count, for at little current there are none",
      .source = "common practice, no source",
      .caution = "A device fed above its rating may be damaged at once, or fail weeks later.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
