#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// IEC 62368-1, table 4: ES1 up to 60 V DC, ES2 up to 120 V DC; from memory.
constexpr double first_v = 60.0;
constexpr double second_v = 120.0;

struct Class {
  const char* name;
  double limit_v;
  const char* follows;
};

Class class_of(double highest_v) {
  if (highest_v <= first_v) {
    return {"ES1", first_v,
            "everyone may touch it, and bare terminals need no cover against shock"};
  }
  if (highest_v <= second_v) {
    return {"ES2", second_v, "what is bare is kept from everyone but those who work on it"};
  }
  return {"ES3", second_v, "it can kill: two safeguards between it and everyone"};
}

std::vector<Finding> ask(const Evidence& evidence) {
  const std::vector<Source> sources = sources_of(evidence.build);
  const Source* highest = nullptr;
  for (const Source& source : sources) {
    if (highest == nullptr || source.highest > highest->highest) highest = &source;
  }
  if (highest == nullptr) return {};
  const double highest_v = highest->highest.si();
  const Class of = class_of(highest_v);
  const quantity::Measure volts = quantity::measure_of<Volt>();
  Finding finding{.part = highest->part->name,
                  .answer = Answer::Classed,
                  .measured = Figure{highest_v, volts},
                  .limit = Figure{of.limit_v, volts}};
  if (highest_v <= of.limit_v) finding.margin = margin_of(highest_v, of.limit_v, Limits::Above);
  finding.sentence =
      fmt::format("Nothing stands higher than {}, at {}: {} ({} {}); {}.", shown<Volt>(highest_v),
                  highest->part->name, of.name, highest_v > second_v ? "above" : "up to",
                  shown<Volt>(of.limit_v), of.follows);
  return {finding};
}

}  // namespace

const Rule& voltage_class() {
  static const Rule rule{
      .key = "voltage_class",
      .title = "Class of its voltage",
      .words =
          "Up to 60 V of direct current a touch does no harm to the skin of a grown person; above "
          "it the covers and the rules for them change. Wet hands and metal in the hand are "
          "another matter at any voltage.",
      .formula = "ES1: U <= 60 V DC; ES2: U <= 120 V DC; ES3: above",
      .source = "IEC 62368-1, table 4, from memory",
      .caution = "Mains is inside the adapters: they stay closed.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
