#include "support/rated_current.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "support/beacon.hpp"
#include "support/jetty.hpp"

namespace tideover::test {

using finding::Answer;
using finding::Finding;
using quantity::Ampere;

namespace {

/// Of what a rule finds, the part that is about a current; some have another about a voltage.
bool is_current(const Finding& finding, const RatedCase& given) {
  if (finding.part != given.part) return false;
  if (finding.measured) return finding.measured->measure == quantity::measure_of<Ampere>();
  return finding.unknown == std::vector<std::string>{given.part + "." + given.key};
}

std::vector<Finding> currents(const std::vector<Finding>& all, const RatedCase& given) {
  std::vector<Finding> kept;
  std::ranges::copy_if(all, std::back_inserter(kept),
                       [&](const Finding& one) { return is_current(one, given); });
  return kept;
}

build::Build changed(const RatedCase& given, const std::string& rated) {
  Lines lines = given.changes;
  if (rated != "as it is") lines[given.part + "." + given.key] = rated;
  return jetty(lines);
}

// Carried for hours while the mains is away.
Finding carrying(const RatedCase& given, double carried_a, const std::string& rated = "as it is") {
  const auto run =
      BeaconRun().channel(given.part, given.channel, Ampere::dimension, 0.1, carried_a);
  const auto found = currents(ask(given.rule, changed(given, rated), {run.record()}), given);
  REQUIRE(found.size() == 1);
  return found[0];
}

void expect_limit(const RatedCase& given) {
  CHECK(carrying(given, 0.5 * given.rated_a).answer == Answer::Holds);
  CHECK(carrying(given, 0.98 * given.rated_a).answer == Answer::Tight);
  const double too_much_a = 1.02 * given.rated_a;
  const Finding finding = carrying(given, too_much_a);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.measured->value_si == doctest::Approx(too_much_a));
  CHECK(finding.limit->value_si == doctest::Approx(given.rated_a));
  CHECK(finding.advice == given.part + ": " + given.key + " = " + given.advised + " or more.");
  CHECK(carrying(given, too_much_a, "'" + given.advised + "'").answer == Answer::Holds);
}

void expect_watch(const RatedCase& given) {
  const double peak_a = 4.0 * given.rated_a;
  auto run = BeaconRun().channel(given.part, given.channel, Ampere::dimension, 0.1, 0.2);
  run.overload(given.part, given.rating, given.channel, given.rated_a, peak_a);
  const auto found = currents(ask(given.rule, changed(given, "as it is"), {run.record()}), given);
  REQUIRE(found.size() == 1);
  CHECK(found[0].answer == Answer::Fails);
  CHECK(found[0].measured->value_si == doctest::Approx(peak_a));
}

}  // namespace

void expect_rated(const RatedCase& given) {
  expect_limit(given);
  expect_watch(given);
  CHECK(carrying(given, 0.5 * given.rated_a, "").answer == Answer::Unknown);
  CHECK(currents(ask_jetty(given.rule, given.changes), given).empty());
}

}  // namespace tideover::test
