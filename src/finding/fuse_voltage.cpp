#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::Fuse* fuse : parts_of<part::Fuse>(evidence.build)) {
    const Volt highest = feeding.highest_voltage({fuse->name, "a"});
    if (highest.si() <= 0.0) continue;
    if (fuse->rated_voltage.si() <= 0.0) {
      found.push_back(
          {.part = fuse->name,
           .answer = Answer::Unknown,
           .sentence = fmt::format("{} has to break {}; its rated voltage is not given.",
                                   fuse->name, shown<Volt>(highest.si())),
           .advice = fmt::format(
               "{}: rated_voltage = what is printed on it; {} or more at direct current.",
               fuse->name, shown<Volt>(highest.si())),
           .unknown = {fuse->name + ".rated_voltage"}});
      continue;
    }
    Finding finding =
        measured_against<Volt>(fuse->name, highest.si(), fuse->rated_voltage.low_si, Limits::Above);
    finding.sentence =
        fmt::format("{} has to break {} at most and is rated {}.", fuse->name,
                    shown<Volt>(highest.si()), shown<Volt>(fuse->rated_voltage.low_si));
    // What is printed on a fuse is a limit with its reserve already in it.
    if (finding.answer == Answer::Tight) finding.answer = Answer::Holds;
    if (finding.answer == Answer::Fails) {
      finding.advice = fmt::format("{}: rated_voltage = {} or more.", fuse->name,
                                   rounded_up(highest, Volt::of_si(1.0)));
      finding.brief = fuse->name + " is not made for its voltage";
    }
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& fuse_voltage() {
  static const Rule rule{
      .key = "fuse_voltage",
      .title = "Voltage of a fuse",
      .words =
          "A fuse is made for a voltage: above it the arc does not go out. The highest voltage "
          "that can stand behind it counts, with a full pack and the adapter at its upper end.",
      .formula = "U_highest <= U_rated",
      .source = "IEC 60127-1 and ISO 8820-3: rated voltage, from memory",
      .caution = "A fuse that cannot put its arc out burns its holder.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
