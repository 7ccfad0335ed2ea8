#include <algorithm>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/idle_diode.hpp"
#include "finding/instant.hpp"
#include "finding/pack_off.hpp"
#include "finding/rails.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"
#include "part/diode/diode.hpp"
#include "part/ideal_diode/ideal_diode.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

bool has_taps(const build::Build& build, const std::string& name) {
  const part::Part* const part = build.find(name);
  return part != nullptr && std::ranges::any_of(part->terminals(), [](const auto& terminal) {
           return terminal.role == part::Role::Tap;
         });
}

Finding swapped(const build::Build& build, const run::Overload& overload, const Case& in) {
  const run::ChannelInfo& channel = in.record->channels[overload.channel];
  Finding finding =
      measured_against<Volt>(overload.part, overload.worst.value_si, 0.0, Limits::Below);
  finding.margin.reset();
  finding.answer = Answer::Fails;
  finding.sentence =
      fmt::format("{} is fed backwards: {} {}, {} in all, first {}.", overload.part, channel.name,
                  show_value(channel, overload.worst.value_si), quantity::show(overload.total),
                  when_and_where(overload.first, in));
  finding.advice =
      overload.part + (has_taps(build, overload.part)
                           ? ": two of the leads to its taps and ends are swapped."
                           : ": plus and minus are swapped, at it or on the way to it.");
  finding.brief = overload.part + " is fed backwards";
  return finding;
}

Finding turned(const std::string& diode, double behind_v) {
  Finding finding = measured_against<Volt>(diode, behind_v, 0.0, Limits::Above);
  finding.margin.reset();
  finding.sentence = fmt::format(
      "{} is fed backwards: it feeds nothing in any run, and its cathode stands up to {} above its "
      "anode while a device goes without.",
      diode, quantity::show(Volt::of_si(behind_v)));
  finding.advice = diode + ": turn it round; the ring marks the cathode, where current comes out.";
  finding.brief = diode + " is fed backwards";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  std::set<std::string> told;
  for (const Case& one : evidence.cases) {
    for (const run::Overload& overload : one.record->overloads) {
      if (!overload.is_polarity || overload.longest <= overload.stands) continue;
      if (told.insert(overload.part).second) {
        found.push_back(swapped(evidence.build, overload, one));
      }
    }
  }
  // What is the wrong way round elsewhere leaves diodes idle that are in order.
  if (!found.empty() || pack_off_at_start(evidence) != nullptr) return found;
  for (const auto& part : evidence.build.parts) {
    const bool is_diode = dynamic_cast<const part::Diode*>(part.get()) != nullptr ||
                          dynamic_cast<const part::IdealDiode*>(part.get()) != nullptr;
    if (!is_diode) continue;
    const auto behind_v = idle_while_wanted_v(evidence, part->name);
    if (behind_v) found.push_back(turned(part->name, *behind_v));
  }
  return found;
}

}  // namespace

const Rule& polarity() {
  static const Rule rule{
      .key = "polarity",
      .title = "Plus and minus",
      .words =
          "Nothing is fed backwards: plus goes to plus, a diode's ring points to what it feeds, "
          "and the taps of the pack go to the board in their order.",
      .formula = "no voltage from plus to minus below -0.5 V for a millisecond",
      .source = "common practice, no source",
      .caution =
          "Check every plus with a meter before the first connection: most small boards do "
          "not survive being fed backwards, and some burn.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
