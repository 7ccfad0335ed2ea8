#include "finding/pack_demand.hpp"

#include <fmt/format.h>

#include "finding/demand.hpp"
#include "quantity/show.hpp"

namespace tideover::finding {

Greatest pack_demand(const Evidence& evidence, const PackCompany& company, std::string_view part,
                     std::string_view rating) {
  const quantity::Volt at = cut_off_of(company).lowest;
  const quantity::Ampere asked =
      peak_demand(evidence.build, Rails(evidence.build), {company.pack->name, "plus"}, at);
  return or_exceeded(
      {asked.si(),
       fmt::format("all it feeds at their most, at {} before the cut-off", quantity::show(at))},
      evidence, part, rating);
}

}  // namespace tideover::finding
