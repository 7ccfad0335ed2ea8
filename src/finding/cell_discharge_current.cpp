#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/pack_demand.hpp"
#include "finding/rule_list.hpp"

namespace tideover::finding {

using quantity::Ampere;

namespace {

Finding finding_of(const Evidence& evidence, const PackCompany& company) {
  const part::Pack& pack = *company.pack;
  const auto [current_a, why] = pack_demand(evidence, company, pack.name, "discharge current");
  const double limit_a = pack.cell.discharge_current.si();
  Finding finding =
      measured_against<Ampere>(pack.name, current_a / pack.parallel, limit_a, Limits::Above);
  finding.sentence =
      fmt::format("{} gives up to {} a cell, {} from {} side by side; a cell stands {}: {}.",
                  pack.name, quantity::show(Ampere::of_si(current_a / pack.parallel)),
                  quantity::show(Ampere::of_si(current_a)), pack.parallel,
                  quantity::show(pack.cell.discharge_current.nominal()), why);
  if (finding.answer == Answer::Holds) return finding;
  finding.advice =
      fmt::format("{}: parallel = {} or more, or cells that stand more.", pack.name,
                  static_cast<int>(std::ceil(1.001 * current_a / ((1.0 - tight_share) * limit_a))));
  finding.brief = pack.name + " gives more than its cells stand";
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) { return of_each_pack(evidence, finding_of); }

}  // namespace

const Rule& cell_discharge_current() {
  static const Rule rule{
      .key = "cell_discharge_current",
      .title = "Discharge current of a cell",
      .words =
          "While all devices take their most at the end of the discharge, where the same power "
          "takes more current, each cell gives no more than its data sheet allows for good.",
      .formula =
          "sum of P / (efficiency U_cut-off) / cells side by side <= I_discharge of the cell; "
          "tight above nine tenths",
      .source = "the cell's data sheet; the tenth: common practice, no source",
      .caution =
          "A cell that gives more than it is made for gets hot, and a hot pack in a box gets "
          "hotter.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
