#include <map>
#include <set>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/lead_guard.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"
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

std::map<std::string, Uses> uses_of(const Evidence& evidence) {
  const build::Build& build = evidence.build;
  std::map<std::string, Uses> uses;
  for (const LeadGuard& guard : guards_of(evidence)) {
    const build::Lead& lead = *guard.lead;
    if (lead.wire.colour.empty() || is_tap(build, lead.from) || is_tap(build, lead.to)) continue;
    Uses& of = uses[lead.wire.colour];
    (guard.is_return ? of.minus : of.plus).push_back("leads." + lead.name);
  }
  return uses;
}

/// Red is plus and black is minus wherever someone opens a box; other colours are free.
enum class Custom { Plus, Minus, Free };
Custom custom_of(const std::string& colour) {
  if (colour == "RD") return Custom::Plus;
  return colour == "BK" ? Custom::Minus : Custom::Free;
}

Finding of_mixed(const std::string& colour, const Uses& uses) {
  const Custom custom = custom_of(colour);
  const bool is_minus_astray =
      custom == Custom::Free ? uses.minus.size() <= uses.plus.size() : custom == Custom::Plus;
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

/// All leads of a colour on the side that it does not stand for. Black is plus in some vehicles;
/// red is minus nowhere.
Finding of_contrary(const std::string& colour, const std::vector<std::string>& leads) {
  const bool is_red = custom_of(colour) == Custom::Plus;
  Finding finding =
      measured_against<Ratio>(leads.front(), static_cast<double>(leads.size()), 0.0, Limits::Above);
  finding.answer = is_red ? Answer::Fails : Answer::Tight;
  finding.margin.reset();
  finding.sentence =
      fmt::format("{} is {} and {}, as are {} leads in all, 0 may be: {} stands for {}.",
                  leads.front(), part::colour_in_words(colour), is_red ? "minus" : "plus",
                  leads.size(), part::colour_in_words(colour), is_red ? "plus" : "minus");
  finding.brief = leads.front() + " has the colour of the other side";
  finding.advice = fmt::format("{}: colour = \"{}\"; and so the others, if there are any.",
                               leads.front(), is_red ? "BK" : "RD");
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  const auto uses = uses_of(evidence);
  std::size_t coloured = 0;
  for (const auto& [colour, of] : uses) {
    coloured += of.plus.size() + of.minus.size();
    const Custom custom = custom_of(colour);
    if (!of.plus.empty() && !of.minus.empty()) {
      found.push_back(of_mixed(colour, of));
    } else if (custom == Custom::Plus && !of.minus.empty()) {
      found.push_back(of_contrary(colour, of.minus));
    } else if (custom == Custom::Minus && !of.plus.empty()) {
      found.push_back(of_contrary(colour, of.plus));
    }
  }
  if (!found.empty() || coloured == 0) return found;
  Finding finding = measured_against<Ratio>("leads", 0.0, 0.0, Limits::Above);
  finding.answer = Answer::Holds;
  finding.margin.reset();
  finding.sentence =
      fmt::format("Of {} coloured leads 0 have the colour of the other side, and 0 may.", coloured);
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
      .formula =
          "colours of plus and colours of minus have none in common; red is no minus, black no "
          "plus",
      .source =
          "IEC 60445: positive red, negative white (2017; brown and grey before), from memory; "
          "black for minus: common practice, no source",
      .caution = "Measure before you trust a colour.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
