#include <map>
#include <set>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/lead_guard.hpp"
#include "finding/rule_list.hpp"
#include "part/wire/colour.hpp"

namespace tideover::finding {

using quantity::Ratio;

namespace {

/// Which leads of plus and which of minus have a colour. Taps lie between both and count as
/// neither.
struct Uses {
  std::vector<std::string> plus;
  std::vector<std::string> minus;
};

bool is_tap(const build::Build& build, const build::TerminalName& at) {
  const part::Part* const part = build.find(at.part);
  if (part == nullptr) return false;
  for (const part::Terminal& terminal : part->terminals()) {
    if (terminal.name == at.terminal) return terminal.role == part::Role::Tap;
  }
  return false;
}

std::map<std::string, Uses> uses_of(const build::Build& build) {
  const Feeding feeding(build);
  std::map<std::string, Uses> uses;
  for (const LeadGuard& guard : lead_guards(build, feeding)) {
    const build::Lead& lead = *guard.lead;
    if (lead.wire.colour.empty() || is_tap(build, lead.from) || is_tap(build, lead.to)) continue;
    Uses& of = uses[lead.wire.colour];
    (guard.is_return ? of.minus : of.plus).push_back("leads." + lead.name);
  }
  return uses;
}

Finding of_mixed(const std::string& colour, const Uses& uses) {
  const bool is_minus_astray = uses.minus.size() <= uses.plus.size();
  const std::vector<std::string>& few = is_minus_astray ? uses.minus : uses.plus;
  const std::vector<std::string>& many = is_minus_astray ? uses.plus : uses.minus;
  Finding finding =
      measured_against<Ratio>(few.front(), static_cast<double>(few.size()), 0.0, Limits::Above);
  finding.answer = Answer::Fails;
  finding.margin.reset();
  finding.sentence = fmt::format(
      "{} is {} like {}, and one of them is plus, the other minus: {} of {} leads of that colour "
      "are on the other side, 0 may be.",
      few.front(), part::colour_in_words(colour), many.front(), few.size(),
      few.size() + many.size());
  finding.brief = few.front() + " has the colour of the other side";
  finding.advice = fmt::format("{}: colour = \"{}\".", few.front(), is_minus_astray ? "BK" : "RD");
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  const auto uses = uses_of(evidence.build);
  std::size_t coloured = 0;
  for (const auto& [colour, of] : uses) {
    coloured += of.plus.size() + of.minus.size();
    if (!of.plus.empty() && !of.minus.empty()) found.push_back(of_mixed(colour, of));
  }
  if (!found.empty() || coloured == 0) return found;
  Finding finding = measured_against<Ratio>("leads", 0.0, 0.0, Limits::Above);
  finding.answer = Answer::Holds;
  finding.margin.reset();
  finding.sentence = fmt::format(
      "Of {} coloured leads none of plus has the colour of one of minus: 0, and 0 may.", coloured);
  return {finding};
}

}  // namespace

const Rule& polarity_marking() {
  static const Rule rule{
      .key = "polarity_marking",
      .title = "Plus and minus by colour",
      .words =
          "No colour stands for plus here and for minus there. Red and its relatives for plus, "
          "black or white for minus, one colour a rail; whoever opens the box in five years has "
          "nothing else to go by.",
      .formula = "colours of plus and colours of minus have none in common",
      .source =
          "IEC 60445: positive red, negative white (2017; brown and grey before), from memory; "
          "black for minus: common practice, no source",
      .caution = "Measure before you trust a colour.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
