// Contacts of a relay: current and voltage.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"
#include "support/rated_current.hpp"

using namespace tideover;
using namespace tideover::finding;

TEST_CASE("the contact of a relay carries what it is rated for, and not 2 % more") {
  test::expect_rated({.rule = finding::relay_contact(),
                      .part = "swap",
                      .key = "contact_rated",
                      .channel = "contact current",
                      .rating = "contact current",
                      .rated_a = 3.0,
                      .advised = "3.5 A"});
}

TEST_CASE("contacts break the highest voltage at either throw, or just do not") {
  // The step-up sets 12.6 V +/- 1 %.
  const auto at = [](const char* voltage) {
    return test::ask_jetty(relay_contact(), "swap", {{"swap.contact_voltage", voltage}});
  };
  CHECK(at("'12.8 V'").answer == Answer::Holds);
  const Finding finding = at("'12.6 V'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.726));
  CHECK(finding.advice == "swap: contact_voltage = 13 V or more.");
  CHECK(at("'13 V'").answer == Answer::Holds);
  CHECK(at("").answer == Answer::Unknown);
  CHECK(at("").unknown == std::vector<std::string>{"swap.contact_voltage"});
}
