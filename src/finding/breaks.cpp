#include <set>

#include <fmt/format.h>

#include "finding/instant.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

namespace {

/// The current at which it went, where the record has it.
void add_current(const run::Record& record, Finding& finding) {
  const int channel = record.find(finding.part, "current");
  if (channel < 0 || record.highest.empty()) return;
  const auto at = static_cast<std::size_t>(channel);
  const run::ChannelInfo& info = record.channels[at];
  finding.measured =
      Figure{record.highest[at].value_si, {info.dimension, info.is_temperature, false}};
  finding.sentence += ", having carried up to " + show_value(info, record.highest[at].value_si);
}

Finding finding_of(const run::Event& event, const Case& in) {
  const run::Record& record = *in.record;
  Finding finding{.part = event.part, .answer = Answer::Fails};
  finding.sentence =
      fmt::format("{} {} {}", event.part, event.words, show_instant(event.at, darks_of(record)));
  add_current(record, finding);
  finding.sentence += fmt::format(" ({}).", in.words);
  finding.advice = event.part +
                   ": find what takes so much there before a stronger one goes in; the wire behind "
                   "it must stand what it lets through.";
  finding.brief = event.part + " " + event.words;
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  std::set<std::string> told;
  for (const Case& one : evidence.cases) {
    for (const run::Event& event : one.record->events) {
      if (event.effect != network::Effect::Breaks || !told.insert(event.part).second) continue;
      found.push_back(finding_of(event, one));
    }
  }
  return found;
}

}  // namespace

const Rule& breaks() {
  static const Rule rule{
      .key = "breaks",
      .title = "Fuses that blow, cut-outs that open for good",
      .words = "In ordinary use no fuse blows and no one-shot cut-out opens.",
      .formula = "no such event in any run",
      .source = "common practice, no source",
      .caution = "Never bridge a fuse, and never put in a stronger one before the reason is known.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
