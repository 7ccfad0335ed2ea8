// A fuse in daily use.
#include <doctest/doctest.h>

#include "finding/rule_list.hpp"
#include "support/beacon.hpp"
#include "support/jetty.hpp"

using namespace tideover;
using namespace tideover::finding;
using quantity::Ampere;

namespace {

// At 23 degC, where a fuse is rated.
Finding with(double carried_a, test::JettyChanges changes = {}) {
  changes.insert({"needs.ambient", "'0 degC to 23 degC'"});
  const auto run =
      test::BeaconRun().channel("f_pack", "current", Ampere::dimension, 0.1, carried_a);
  return test::about(test::ask(fuse_loading(), test::jetty(changes), {run.record()}), "f_pack");
}

const test::JettyChanges as_ul{{"f_pack.style", "'ul'"}, {"f_pack.rated", "'2 A'"}};

}  // namespace

TEST_CASE("1.5 A for good ask for 2 A after UL") {
  // The 75 % rule: EDN, 26 September 1996 (read).
  CHECK(with(1.5, as_ul).limit->value_si == doctest::Approx(1.5));
  CHECK(with(1.49, as_ul).answer == Answer::Tight);
  CHECK(with(1.52, as_ul).answer == Answer::Fails);
}

TEST_CASE("a blade carries three quarters, a fuse after IEC 60127 all it is rated for") {
  CHECK(with(1.0).limit->value_si == doctest::Approx(3.75));
  CHECK(with(1.0, {{"f_pack.style", "'time-lag'"}}).limit->value_si == doctest::Approx(5.0));
}

TEST_CASE("a fuse that carries too much for good is told, and the next one mends it") {
  CHECK(with(3.3).answer == Answer::Holds);
  CHECK(with(3.7).answer == Answer::Tight);
  const Finding finding = with(3.8);
  CHECK(finding.answer == Answer::Fails);
  CHECK(finding.advice == "f_pack: rated = 7.5 A or more, as far as the leads behind it allow.");
  CHECK(with(3.8, {{"f_pack.rated", "'7.5 A'"}}).answer == Answer::Holds);
}

TEST_CASE("current the other way loads it as well") {
  CHECK(with(-3.8).answer == Answer::Fails);
  CHECK(with(-3.8).measured->value_si == doctest::Approx(3.8));
}

TEST_CASE("warm air leaves it less") {
  const double limit_a = with(1.0, {{"needs.ambient", "'0 degC to 48 degC'"}}).limit->value_si;
  // 0.2 % a kelvin above 23 degC.
  CHECK(limit_a == doctest::Approx(3.75 * 0.95).epsilon(1e-3));
}
