#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/rule_list.hpp"
#include "part/box/box.hpp"
#include "part/pack/pack.hpp"

namespace tideover::finding {

using quantity::Coulomb;
using quantity::SquareMetre;

namespace {

/// Gas current per capacity under boost charge of vented cells, the worst of IEC 62485-2, table 1:
/// 20 mA per Ah (sealed ones 8); from memory.
constexpr double gas_per_ah_a = 20e-3;
/// Air per hour for a volume share of hydrogen below 4 % with five times in hand: 0.05 m3 per Ah of
/// gas current and cell.
constexpr double air_m3 = 0.05;
/// cm2 of opening per m3/h, in and out each, for a draught of its own.
constexpr double opening_cm2 = 28.0;
/// A lead-acid cell is charged to about this.
constexpr double cell_v = 2.4;

double cells_of(const part::Pack& pack) {
  return std::max(1.0, std::round(pack.series * pack.cell.charge_to.si() / cell_v));
}

/// Of each of the two openings.
SquareMetre least_opening(const part::Pack& pack) {
  const double capacity_ah = pack.group_capacity(1).si() / 3600.0;
  const double air_m3_per_h = air_m3 * cells_of(pack) * gas_per_ah_a * capacity_ah;
  return SquareMetre::of_si(opening_cm2 * air_m3_per_h * 1e-4);
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  const auto boxes = parts_of<part::Box>(evidence.build);
  for (const part::Pack* pack : parts_of<part::Pack>(evidence.build)) {
    const bool gives_gas = pack->cell.chemistry == part::Chemistry::LeadAcid;
    if (!gives_gas || boxes.empty() || pack->where != part::Whereabouts::Box) continue;
    const part::Box& box = *boxes.front();
    const bool is_low = box.vent_low.low_si < box.vent_high.low_si;
    const double smaller_m2 = std::min(box.vent_low.low_si, box.vent_high.low_si);
    const SquareMetre least = least_opening(*pack);
    Finding finding =
        measured_against<SquareMetre>(box.name, smaller_m2, least.si(), Limits::Below);
    finding.sentence = fmt::format(
        "{} gives off hydrogen while it is charged and asks for an opening of {} low and another "
        "high; {} of {} is {}.",
        pack->name, quantity::show(least), is_low ? "the low one" : "the high one", box.name,
        quantity::show(SquareMetre::of_si(smaller_m2)));
    if (finding.answer != Answer::Holds) {
      const std::string size = rounded_up((1.0 + tight_share) * least, SquareMetre::of_si(1e-5));
      finding.advice = fmt::format("{}: vent_low = vent_high = {} or more.", box.name, size);
      finding.brief = fmt::format("the gas of {} does not get out of {}", pack->name, box.name);
    }
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& box_ventilation() {
  static const Rule rule{
      .key = "box_ventilation",
      .title = "Air for a lead-acid pack",
      .words =
          "Lead-acid cells, sealed ones too, give off hydrogen when they are charged. Their box "
          "has an opening low down and one at the top, large enough that the gas never gets near "
          "four percent.",
      .formula = "Q = 0.05 n I_gas C m3/h, I_gas = 20 mA/Ah; A >= 28 Q cm2 each",
      .source = "IEC 62485-2, 7.2 and 7.3, from memory",
      .caution = "No spark near a pack that is charged; air the box before work on it.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
