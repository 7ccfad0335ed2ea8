#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/carried.hpp"
#include "finding/rails.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"

namespace tideover::finding {

namespace {

using quantity::Ampere;

std::vector<Finding> ask(const Evidence& evidence) {
  const quantity::Temperature air = evidence.build.needs.ambient.high();
  std::vector<Finding> found;
  for (const build::Lead& lead : evidence.build.leads) {
    const std::string name = "leads." + lead.name;
    const auto carried = carried_by(evidence, name, "current", "ampacity");
    if (!carried) continue;
    const part::Ampacity ampacity = lead.wire.ampacity(air);
    Finding finding =
        measured_against<Ampere>(name, carried->size_a, ampacity.current.si(), Limits::Above);
    if (carried->is_too_much) finding.answer = Answer::Fails;
    finding.sentence =
        fmt::format("{} carries {}, {}, which warms it to {}; it may carry {} in air of {} ({}).",
                    name, shown<Ampere>(carried->size_a, 3), carried->when,
                    quantity::show(lead.wire.temperature_at(Ampere::of_si(carried->size_a), air)),
                    shown<Ampere>(ampacity.current.si(), 3), quantity::show(air), ampacity.table);
    const auto size =
        size_for(lead.wire, Ampere::of_si(carried->size_a / (1.0 - tight_share)), air);
    if (finding.answer != Answer::Holds && size) {
      finding.advice = fmt::format("{}: size = {} or more.", name, size_text(*size));
    }
    if (finding.answer != Answer::Holds) finding.brief = name + " is thin for what it carries";
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& lead_ampacity() {
  static const Rule rule{
      .key = "lead_ampacity",
      .title = "Current of a lead",
      .words =
          "A lead carries what hangs on it without its insulation getting softer, in the "
          "warmest air and with its neighbours warm too. Published tables differ by up to seven "
          "to one: the one that was used is named.",
      .formula = "I <= I_z(size, laid, air), I_z by sqrt((70 degC - T) / 40 K)",
      .source = "VDE 0298-4 as restated (read), or the table that is named",
      .caution = "",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
