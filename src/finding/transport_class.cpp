#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/rule_list.hpp"
#include "part/pack/pack.hpp"

namespace tideover::finding {

using quantity::Joule;

namespace {

constexpr double wh_j = 3600.0;
/// Air rules for lithium ion (PI 965, 2016, read; hand baggage from memory).
constexpr double small_cell_j = 20.0 * wh_j;
constexpr double small_pack_j = 100.0 * wh_j;
constexpr double with_approval_j = 160.0 * wh_j;

/// Mean of the rest voltage over charge: what a Wh rating takes as nominal.
double nominal_v(const part::Cell& cell) {
  double sum = 0.0;
  double share = 0.0;
  for (std::size_t k = 1; k < cell.rest.size(); ++k) {
    const double step = cell.rest[k].soc.si() - cell.rest[k - 1].soc.si();
    sum += step * 0.5 * (cell.rest[k].voltage.si() + cell.rest[k - 1].voltage.si());
    share += step;
  }
  return share > 0.0 ? sum / share : 0.5 * (cell.charge_to.si() + cell.discharge_to.si());
}

std::string class_of(double cell_j, double pack_j) {
  if (cell_j <= small_cell_j && pack_j <= small_pack_j) {
    return "a small battery: by road and sea, and by air with its device, marked as lithium ion "
           "and "
           "not declared; by air without it class 9, at 30 % of charge at most; free in hand "
           "baggage";
  }
  if (pack_j <= with_approval_j) {
    return "dangerous goods of class 9, UN 3480 alone and UN 3481 with its device, packed and "
           "declared by someone trained; in hand baggage with the airline's approval only";
  }
  return "dangerous goods of class 9, UN 3480 alone and UN 3481 with its device, packed and "
         "declared by someone trained; in no passenger's baggage";
}

Finding of_lithium(const part::Pack& pack) {
  const double cell_j = pack.cell.capacity.si() * nominal_v(pack.cell);
  const double pack_j = cell_j * pack.series * pack.parallel;
  const bool is_cell_worse = cell_j > small_cell_j && pack_j <= small_pack_j;
  const quantity::Measure energy = quantity::measure_of<Joule>();
  const double measured_j = is_cell_worse ? cell_j : pack_j;
  const double limit_j = is_cell_worse ? small_cell_j : small_pack_j;
  Finding finding{.part = pack.name,
                  .answer = Answer::Classed,
                  .measured = Figure{measured_j, energy},
                  .limit = Figure{limit_j, energy}};
  if (measured_j <= limit_j) finding.margin = margin_of(measured_j, limit_j, Limits::Above);
  finding.sentence = fmt::format(
      "{} holds {} in {} cells of {} ({} and {} are the bounds): {}. Each design of cell and pack "
      "needs a UN 38.3 test summary to be sent at all.",
      pack.name, shown<Joule>(pack_j, 3), pack.series * pack.parallel, shown<Joule>(cell_j, 3),
      shown<Joule>(small_pack_j, 3), shown<Joule>(small_cell_j, 3), class_of(cell_j, pack_j));
  return finding;
}

Finding of_lead_acid(const part::Pack& pack) {
  const double pack_j =
      pack.cell.capacity.si() * nominal_v(pack.cell) * pack.series * pack.parallel;
  Finding finding{.part = pack.name,
                  .answer = Answer::Classed,
                  .measured = Figure{pack_j, quantity::measure_of<Joule>()}};
  finding.sentence = fmt::format(
      "{} holds {}: lead-acid, UN 2800 if it cannot spill (terminals covered, then mostly free), "
      "else UN 2794, class 8.",
      pack.name, shown<Joule>(pack_j, 3));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Pack* pack : parts_of<part::Pack>(evidence.build)) {
    const bool is_lead = pack->cell.chemistry == part::Chemistry::LeadAcid;
    found.push_back(is_lead ? of_lead_acid(*pack) : of_lithium(*pack));
  }
  return found;
}

}  // namespace

const Rule& transport_class() {
  static const Rule rule{
      .key = "transport_class",
      .title = "Class for transport",
      .words =
          "What a cell and the pack hold decides how they may be sent: 20 Wh a cell and 100 Wh a "
          "pack are the bounds of the easy class. A pack of one's own making has no test summary; "
          "take it apart or drive it there.",
      .formula = "E = n U_nominal C; E_cell <= 20 Wh and E_pack <= 100 Wh",
      .source =
          "IATA PI 965 as restated (read), UN Manual of Tests and Criteria 38.3 as restated "
          "(read); road and sea, the end of undeclared packs alone by air, hand baggage and "
          "lead-acid "
          "from memory",
      .caution =
          "Terminals insulated, switch off, no damaged or swollen cell: carriers and local rules "
          "decide.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
