#include "finding/pack_company.hpp"

#include <utility>

#include "build/parts_of.hpp"

namespace tideover::finding {

std::vector<PackCompany> pack_companies(const build::Build& build) {
  const Rails rails(build);
  std::vector<PackCompany> all;
  for (const part::Pack* pack : parts_of<part::Pack>(build)) {
    PackCompany company{.pack = pack};
    for (const part::Charger* charger : parts_of<part::Charger>(build)) {
      if (rails.feeds({charger->name, "out_plus"}, {pack->name, "plus"})) {
        company.chargers.push_back(charger);
      }
    }
    for (const part::ProtectionBoard* board : parts_of<part::ProtectionBoard>(build)) {
      if (rails.are_one({board->name, "b_plus"}, {pack->name, "plus"})) {
        company.boards.push_back(board);
      }
    }
    all.push_back(std::move(company));
  }
  return all;
}

std::vector<Finding> of_each_pack(const Evidence& evidence,
                                  Finding (*finding_of)(const Evidence&, const PackCompany&)) {
  std::vector<Finding> found;
  for (const PackCompany& company : pack_companies(evidence.build)) {
    Finding finding = finding_of(evidence, company);
    if (finding.measured && finding.measured->value_si > 0.0) found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace tideover::finding
