/// A pack with those that charge it and those that guard it.
#pragma once

#include <vector>

#include "finding/finding.hpp"
#include "finding/rails.hpp"
#include "part/charger/charger.hpp"
#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"

namespace tideover::finding {

struct PackCompany {
  const part::Pack* pack = nullptr;  ///< never null
  std::vector<const part::Charger*> chargers = {};
  std::vector<const part::ProtectionBoard*> boards = {};
};

/// One for each pack of the build.
[[nodiscard]] std::vector<PackCompany> pack_companies(const build::Build& build);

/// What `finding_of` says of each pack for which it measures anything above zero.
[[nodiscard]] std::vector<Finding> of_each_pack(const Evidence& evidence,
                                                Finding (*finding_of)(const Evidence&,
                                                                      const PackCompany&));

}  // namespace tideover::finding
