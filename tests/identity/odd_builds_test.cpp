// What builders meet now and then, and their slips: adapters that hiccup, lead-acid, a plug pulled
// in mid-timeline, ideal diodes, an earthed point, two leads swapped. Whatever is built, the run
// comes to an end, says how, and adds up. The seed is part of each message.
#include <cmath>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"
#include "support/random_build.hpp"
#include "support/random_share.hpp"

namespace {

using namespace tideover;
using test::RandomBuild;

/// Two hours of settling: a build that hiccups for a day does nothing else that it does not do
/// within two hours.
run::Record go(const build::Build& build, double ambient_c) {
  const run::Settings settings{.settles = quantity::Second::of_si(7200.0)};
  base::NoProgress nobody;
  return run::run(build, build.timelines.front(),
                  {.ambient = quantity::Temperature::of_celsius(ambient_c)}, settings, nobody);
}

/// The run went through its timeline, or says which part will not rest.
void check_ends_well(const run::Record& record) {
  const bool is_restless = record.outcome.ended == hybrid::Ended::Restless;
  CAPTURE(record.outcome.why);
  CHECK((record.outcome.ended == hybrid::Ended::AtTime || is_restless));
  CHECK((!is_restless || !record.outcome.why.empty()));
  CHECK(record.books.open_share < 1e-5);
  CHECK(record.statistics.reactions < 200'000);
}

void check_is_finite(const run::Record& record) {
  for (std::size_t channel = 0; channel < record.channels.size(); ++channel) {
    CAPTURE(record.channels[channel].part);
    CAPTURE(record.channels[channel].name);
    CHECK(std::isfinite(record.lowest.at(channel).value_si));
    CHECK(std::isfinite(record.highest.at(channel).value_si));
  }
}

/// Ends of a rail that something feeds: no potential leaves the span of the sources by more than
/// what an inductance throws at its diode.
void check_stays_low(const run::Record& record, const RandomBuild& random) {
  const int input = record.find("gauge", "input voltage");
  REQUIRE(input >= 0);
  const double most_v = 1.2 * random.rail_v + 2.0;
  CHECK(record.highest.at(static_cast<std::size_t>(input)).value_si < most_v);
}

}  // namespace

TEST_CASE("odd builds: every run ends as asked or says why, with its books closed to 1e-5") {
  for (const std::uint64_t seed : test::seeds(1, 60)) {
    CAPTURE(seed);
    const RandomBuild random = test::odd_build(seed);
    const run::Record record = go(random.build(), random.ambient_c);
    check_ends_well(record);
    check_is_finite(record);
    check_stays_low(record, random);
  }
}

TEST_CASE("odd builds: with two leads swapped the sheet is refused, or the run ends and adds up") {
  int refused = 0;
  int ran = 0;
  int given_up = 0;
  for (const std::uint64_t seed : test::seeds(43, 80)) {
    CAPTURE(seed);
    const RandomBuild random = test::miswired_build(seed);
    const auto read = build::read_sheet(random.sheet(), "miswired.toml", shelf::built_in_shelf());
    if (!read) {
      ++refused;
      CHECK_FALSE(base::show(read.problems()).empty());
      continue;
    }
    ++ran;
    const run::Record record = go(read.value(), random.ambient_c);
    // Kiloamperes out of a shorted pack may be more than the books take. Then the run says so.
    if (record.outcome.ended == hybrid::Ended::OpenBooks) {
      ++given_up;
      MESSAGE("seed " << seed << " is given up: " << record.outcome.why);
      CHECK_FALSE(record.outcome.why.empty());
      continue;
    }
    check_ends_well(record);
    check_is_finite(record);
  }
  // The reader looks for what no wiring can mean; nearly all slips have to be found by the run.
  CHECK(ran > refused);
  CHECK(20 * given_up <= ran);
}

TEST_CASE("odd builds: a plug pulled while the mains is there leaves the device to the pack") {
  for (const std::uint64_t seed : test::seeds(301, 315)) {
    CAPTURE(seed);
    RandomBuild random(seed);
    random.draw = RandomBuild::Draw::Power;
    random.has_bursts = false;
    random.ambient_c = 25.0;
    random.pulls_plug = true;
    const run::Record record = go(random.build(), random.ambient_c);
    // Pulled, put back, gone, pulled: the adapter gives nothing in the second of the stretches.
    const int given = record.find("mains", "output current");
    REQUIRE(given >= 0);
    const auto& pulled = record.stretches.at(1);
    for (std::size_t k = 0; k < record.instants.size(); ++k) {
      const double since_s = (record.instants[k] - pulled.begins).si();
      if (since_s < 1.0 || record.instants[k] >= pulled.ends) continue;
      CHECK(std::abs(record.samples_si.at(static_cast<std::size_t>(given)).at(k)) < 1e-6);
    }
    check_ends_well(record);
  }
}
