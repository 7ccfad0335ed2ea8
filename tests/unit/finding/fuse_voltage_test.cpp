// The voltage a fuse is made for.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/jetty.hpp"

using namespace tideover::finding;
using tideover::test::ask_jetty;

namespace {

// The full pack puts 3 x 4.2 V on it.
Finding with(const char* rated) {
  return ask_jetty(fuse_voltage(), "f_lamp", {{"f_lamp.rated_voltage", rated}});
}

}  // namespace

TEST_CASE("a fuse rated just above the full pack holds, one just below does not") {
  CHECK(with("'12.7 V'").answer == Answer::Holds);
  const Finding finding = with("'12.5 V'");
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(12.6));
  CHECK(finding.limit->value_si == doctest::Approx(12.5));
  CHECK(finding.advice == "f_lamp: rated_voltage = 13 V or more.");
  CHECK(with("'13 V'").answer == Answer::Holds);
}

TEST_CASE("given no rated voltage, it is asked for") {
  const Finding finding = with("");
  CHECK(finding.answer == Answer::Unknown);
  CHECK(finding.unknown == std::vector<std::string>{"f_lamp.rated_voltage"});
  CHECK_FALSE(finding.measured.has_value());
  CHECK_FALSE(finding.advice.empty());
}
