#include "build/parts_of.hpp"
#include "finding/carried.hpp"
#include "finding/rule_list.hpp"
#include "part/connector/connector.hpp"

namespace tideover::finding {

namespace {

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Connector* one : parts_of<part::Connector>(evidence.build)) {
    const auto finding = judge_current(evidence, {.part = one->name,
                                                  .key = "rated",
                                                  .channel = "current of the busiest contact",
                                                  .rating = "contact current",
                                                  .carries = "One contact of " + one->name,
                                                  .rated = &one->rated});
    if (finding) found.push_back(*finding);
  }
  return found;
}

}  // namespace

const Rule& connector_current() {
  static const Rule rule{
      .key = "connector_current",
      .title = "Current of a plug",
      .words =
          "A plug carries its rated current when it is new. A worn contact has many times the "
          "resistance and gets hot, so that a plug is chosen with something to spare.",
      .formula = "I <= I_rated of one contact",
      .source = "IEC 61984: rated current of a contact, from memory",
      .caution = "A plug that has gone brown is replaced on both sides.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
