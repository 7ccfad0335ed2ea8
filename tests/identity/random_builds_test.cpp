// Laws that hold for every build, asked of random ones. The seed is part of each message.
#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "hybrid/stepper.hpp"
#include "run/circuit.hpp"
#include "run/run.hpp"
#include "support/random_build.hpp"
#include "support/random_share.hpp"

namespace {

using namespace tideover;
using test::RandomBuild;

run::Settings brief() { return {.settles = quantity::Second::of_si(86400.0)}; }

run::Record go(const RandomBuild& random, const run::Settings& settings = brief()) {
  const build::Build build = random.build();
  base::NoProgress nobody;
  return run::run(build, build.timelines.front(),
                  {.ambient = quantity::Temperature::of_celsius(random.ambient_c)}, settings,
                  nobody);
}

/// Seconds of the outage in which the only load was served.
double served_in_dark_s(const run::Record& record) {
  double sum = 0.0;
  for (const auto& interval : record.services.front().served) {
    const double from = std::max(interval.from.si(), record.stretches.at(1).begins.si());
    const double to = std::min(interval.to.si(), record.stretches.at(1).ends.si());
    sum += std::max(0.0, to - from);
  }
  return sum;
}

/// A build whose load holds its power and nothing else changes over time.
RandomBuild steady(std::uint64_t seed) {
  RandomBuild random(seed);
  random.draw = RandomBuild::Draw::Power;
  random.has_bursts = false;
  random.ambient_c = 25.0;
  return random;
}

/// Time served may differ by what one event's location and the settling before it leave.
constexpr double slack_s = 2.0;

}  // namespace

TEST_CASE("random builds: every run ends as asked, with its books closed to 1e-5") {
  for (const std::uint64_t seed : test::seeds(1, 60)) {
    CAPTURE(seed);
    const run::Record record = go(RandomBuild(seed));
    // A build that switches on and off without end is carried no further, and says what does it.
    const bool is_restless = record.outcome.ended == hybrid::Ended::Restless;
    CHECK((record.outcome.ended == hybrid::Ended::AtTime || is_restless));
    CHECK((!is_restless || (!record.chatters.empty() && !record.outcome.why.empty())));
    CHECK(record.books.open_share < 1e-5);
    CHECK(record.books.open_share > 0.0);
  }
}

TEST_CASE("random builds: the books close better as the tolerance falls") {
  double loose = 0.0;
  double tight = 0.0;
  for (const std::uint64_t seed : test::seeds(101, 110)) {
    run::Settings settings = brief();
    settings.relative_tolerance = 1e-4;
    loose += go(RandomBuild(seed), settings).books.open_share;
    settings.relative_tolerance = 1e-7;
    tight += go(RandomBuild(seed), settings).books.open_share;
  }
  CHECK(tight < 0.1 * loose);
}

TEST_CASE("random builds: at every node the currents sum to zero") {
  for (const std::uint64_t seed : test::seeds(1, 40)) {
    CAPTURE(seed);
    const RandomBuild random(seed);
    const build::Build build = random.build();
    run::Circuit circuit = run::assemble(build, {});
    hybrid::Stepper stepper(circuit.network, {}, 0.0, circuit.network.start());
    hybrid::Observer nobody;
    for (const double until_s : {0.05, 3.0, 4000.0}) {
      REQUIRE(stepper.advance(until_s, nobody).ended == hybrid::Ended::AtTime);
      std::vector<double> f(stepper.y().size());
      circuit.network.rates(stepper.y(), f);
      double worst_a = 0.0;
      for (std::size_t k = 0; k < f.size(); ++k) {
        if (circuit.network.differential()[k] == 0) worst_a = std::max(worst_a, std::abs(f[k]));
      }
      CHECK(worst_a < 1e-4);
    }
  }
}

TEST_CASE("random builds: one more cell in parallel never serves shorter") {
  for (const std::uint64_t seed : test::seeds(201, 215)) {
    CAPTURE(seed);
    RandomBuild random = steady(seed);
    const double before_s = served_in_dark_s(go(random));
    ++random.parallel;
    CHECK(served_in_dark_s(go(random)) >= before_s - slack_s);
  }
}

TEST_CASE("random builds: a longer lead to the load never serves longer") {
  for (const std::uint64_t seed : test::seeds(301, 315)) {
    CAPTURE(seed);
    RandomBuild random = steady(seed);
    const double before_s = served_in_dark_s(go(random));
    random.supply_lead_mm *= 4.0;
    CHECK(served_in_dark_s(go(random)) <= before_s + slack_s);
  }
}

TEST_CASE("random builds: a colder pack never serves longer") {
  for (const std::uint64_t seed : test::seeds(401, 415)) {
    CAPTURE(seed);
    RandomBuild random = steady(seed);
    random.has_relay = false;           // a cold coil draws more: another effect than the cells'
    random.has_self_discharge = false;  // it falls with the cold and counts over days
    const double before_s = served_in_dark_s(go(random));
    random.ambient_c = 0.0;
    // Leads resist less in the cold: a share of a share of the load's power.
    CHECK(served_in_dark_s(go(random)) <= 1.002 * before_s + slack_s);
  }
}
