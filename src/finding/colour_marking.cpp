#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/rule_list.hpp"
#include "part/adapter/adapter.hpp"
#include "part/wire/colour.hpp"

namespace tideover::finding {

using quantity::Ratio;

namespace {

/// Green or yellow alone may be taken for a protective conductor where there is one.
bool is_like_protective(const std::string& colour) {
  return colour.find("GN") != std::string::npos || colour.find("YE") != std::string::npos;
}

bool has_protective(const build::Build& build) {
  return std::ranges::any_of(build.leads,
                             [](const build::Lead& lead) { return lead.wire.protective; }) ||
         std::ranges::any_of(parts_of<part::Adapter>(build),
                             [](const part::Adapter* adapter) { return adapter->earthed; });
}

Finding without_colour(const build::Lead& lead) {
  const std::string name = "leads." + lead.name;
  return {.part = name,
          .answer = Answer::Unknown,
          .sentence = fmt::format("The colour of {} is not given.", name),
          .advice = fmt::format("{}: colour = its letters, RD or BK for instance.", name),
          .unknown = {name + ".colour"}};
}

Finding taken_for_protective(const build::Lead& lead) {
  const std::string name = "leads." + lead.name;
  Finding finding{.part = name,
                  .answer = Answer::Fails,
                  .measured = Figure{1.0, quantity::measure_of<Ratio>()},
                  .limit = Figure{0.0, quantity::measure_of<Ratio>()}};
  finding.sentence = fmt::format(
      "{} is {} where there is a protective conductor, and may be taken for it: 1 lead is, 0 may "
      "be.",
      name, part::colour_in_words(lead.wire.colour));
  finding.advice = fmt::format(
      "{}: colour = \"RD\" for plus, \"BK\" for minus, \"WH\" for a "
      "signal.",
      name);
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const build::Build& build = evidence.build;
  const bool is_earthed = has_protective(build);
  std::vector<Finding> found;
  std::size_t sound = 0;
  for (const build::Lead& lead : build.leads) {
    if (lead.wire.colour.empty()) {
      found.push_back(without_colour(lead));
    } else if (is_earthed && !lead.wire.protective && is_like_protective(lead.wire.colour)) {
      found.push_back(taken_for_protective(lead));
    } else {
      ++sound;
    }
  }
  if (!found.empty() || sound == 0) return found;
  const quantity::Measure number = quantity::measure_of<Ratio>();
  return {
      {.part = "leads",
       .answer = Answer::Holds,
       .measured = Figure{0.0, number},
       .limit = Figure{0.0, number},
       .sentence = fmt::format(
           "All {} leads have a colour, and 0 of them may be taken for protective earth.", sound)}};
}

}  // namespace

const Rule& colour_marking() {
  static const Rule rule{
      .key = "colour_marking",
      .title = "Colours of leads",
      .words =
          "Every lead has a colour that stands in the plan. Green with yellow is for protective "
          "earth alone; where there is one in the box, green or yellow by themselves stay out of "
          "it.",
      .formula = "GNYE: protective only; GN, YE: only where nothing protective is near",
      .source = "IEC 60445 and IEC 60757, from memory; the order of letters as restated (read)",
      .caution = "",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
