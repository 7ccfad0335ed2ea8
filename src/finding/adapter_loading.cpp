#include <optional>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "finding/spare_current.hpp"
#include "finding/witness.hpp"

namespace tideover::finding {

using quantity::Ampere;

namespace {

/// Nearly all of its rating for less than this is a start, not a load. Assumed.
constexpr quantity::Second brief = quantity::Second::of_si(60.0);

std::string remedy(const Evidence& evidence, const part::Adapter& adapter, double share) {
  const Rails rails(evidence.build);
  const double rated_a = share * adapter.rated.si() / (1.0 - 1.01 * tight_share);
  const std::string stronger = fmt::format("{}: rated = {} or more", adapter.name,
                                           rounded_up(Ampere::of_si(rated_a), Ampere::of_si(0.1)));
  for (const part::Charger* charger : parts_of<part::Charger>(evidence.build)) {
    if (!rails.feeds({adapter.name, "plus"}, {charger->name, "in_plus"})) continue;
    return fmt::format("{}; or {}.",
                       spare_current(evidence.build, rails, adapter, *charger).advice(), stronger);
  }
  return stronger + ".";
}

Finding told(const Evidence& evidence, const part::Adapter& adapter, Judged judged) {
  Finding finding = std::move(judged.finding);
  const double share = finding.measured->value_si;
  finding.sentence =
      fmt::format("{} gives {:.0f} % of its rated {}{}, {}.", adapter.name, 100.0 * share,
                  quantity::show(adapter.rated.nominal()),
                  finding.answer == Answer::Fails ? "" : " for a minute in all", judged.found);
  if (finding.answer != Answer::Holds) finding.advice = remedy(evidence, adapter, share);
  finding.brief = adapter.name + " is overloaded";
  return finding;
}

/// Where no run tells: what hangs on it, at its most, against its rating.
std::optional<Finding> by_the_sheet(const build::Build& build, const part::Adapter& adapter) {
  const Ampere most =
      peak_demand(build, Rails(build), {adapter.name, "plus"}, adapter.output.nominal());
  Finding finding =
      measured_against<Ampere>(adapter.name, most.si(), adapter.rated.si(), Limits::Above);
  if (finding.answer != Answer::Fails) return std::nullopt;
  finding.sentence =
      fmt::format("{} is rated {}; all it feeds takes {} together at its most.", adapter.name,
                  quantity::show(adapter.rated.nominal()), quantity::show(most));
  finding.advice = fmt::format("{}: rated = {} or more, or less on it.", adapter.name,
                               rounded_up(Ampere::of_si(1.1 * most.si()), Ampere::of_si(0.1)));
  finding.brief = adapter.name + " is overloaded";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Adapter* adapter : parts_of<part::Adapter>(evidence.build)) {
    Rated rated{adapter->name, "share of rating", "rating left at its temperature", 1.0};
    auto judged = judge_rated(evidence, rated, brief);
    if (judged) {
      found.push_back(told(evidence, *adapter, std::move(*judged)));
    } else if (auto finding = by_the_sheet(evidence.build, *adapter)) {
      found.push_back(std::move(*finding));
    }
  }
  return found;
}

}  // namespace

const Rule& adapter_loading() {
  static const Rule rule{
      .key = "adapter_loading",
      .title = "Loading of an adapter",
      .words =
          "An adapter gives no more than its label says, and over hours of recharging no more "
          "than nine tenths of it: it lives longer, and there is something left for a day on "
          "which the device takes more.",
      .formula = "I / I_rated <= 1 at the adapter's temperature; tight above 0.9 for a minute",
      .source = "the adapter's label; the tenth in reserve: common practice, no source",
      .caution = "An overloaded adapter gets hot and takes the device it belongs to down with it.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
