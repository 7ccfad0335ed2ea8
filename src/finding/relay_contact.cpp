#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/carried.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"
#include "part/relay/relay.hpp"

namespace tideover::finding {

namespace {

using quantity::Volt;

Finding voltage_of(const part::Relay& relay, Volt highest) {
  if (!relay.contact_voltage.given) {
    return {.part = relay.name,
            .answer = Answer::Unknown,
            .sentence = fmt::format(
                "The contacts of {} switch {}; up to which direct voltage they may is not given.",
                relay.name, shown<Volt>(highest.si())),
            .advice = fmt::format(
                "{}: contact_voltage = what its sheet says for direct current; {} or more.",
                relay.name, shown<Volt>(highest.si())),
            .unknown = {relay.name + ".contact_voltage"}};
  }
  Finding finding =
      measured_against<Volt>(relay.name, highest.si(), relay.contact_voltage.low_si, Limits::Above);
  // A rated voltage has its reserve in it.
  if (finding.answer == Answer::Tight) finding.answer = Answer::Holds;
  finding.sentence =
      fmt::format("The contacts of {} switch {} at most and may switch {}, direct voltage.",
                  relay.name, shown<Volt>(highest.si()), shown<Volt>(relay.contact_voltage.low_si));
  if (finding.answer == Answer::Fails) {
    finding.advice = fmt::format("{}: contact_voltage = {} or more.", relay.name,
                                 rounded_up(highest, Volt::of_si(1.0)));
    finding.brief = "the contacts of " + relay.name + " are not made for their voltage";
  }
  return finding;
}

Volt highest_at(const Feeding& feeding, const part::Relay& relay) {
  Volt highest;
  for (const part::Terminal& terminal : relay.terminals()) {
    if (terminal.role != part::Role::Contact) continue;
    highest = std::max(highest, feeding.highest_voltage({relay.name, terminal.name}));
  }
  return highest;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::Relay* one : parts_of<part::Relay>(evidence.build)) {
    const Volt highest = highest_at(feeding, *one);
    if (highest.si() > 0.0) found.push_back(voltage_of(*one, highest));
    for (int pole = 1; pole <= one->poles; ++pole) {
      const std::string current = "contact current" + (pole == 1 ? "" : std::to_string(pole));
      const auto finding = judge_current(evidence, {.part = one->name,
                                                    .key = "contact_rated",
                                                    .channel = current,
                                                    .rating = current,
                                                    .carries = "The contact of " + one->name,
                                                    .rated = &one->contact_rated});
      if (finding) found.push_back(*finding);
    }
  }
  return found;
}

}  // namespace

const Rule& relay_contact() {
  static const Rule rule{
      .key = "relay_contact",
      .title = "Contacts of a relay",
      .words =
          "Contacts have two limits at direct current: the current they carry, and the voltage "
          "up to which an arc goes out between them. The figure for alternating current holds "
          "for neither.",
      .formula = "I <= I_rated and U <= U_rated, DC",
      .source = "IEC 61810-1: contact ratings, from memory",
      .caution =
          "A welded contact joins adapter and pack for good: check that the relay lets go, once "
          "a year.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
