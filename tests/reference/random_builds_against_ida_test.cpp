// Whole builds, run by the stepper and by SUNDIALS IDA on the same residuals: when things happen,
// and where the energy goes. The seed is part of each message.
#include <cmath>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "reference/ida_integrator.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"
#include "support/places.hpp"
#include "support/random_build.hpp"
#include "support/random_share.hpp"

namespace {

using namespace tideover;

/// What the stepper is asked for here, a hundredth of its default, and what it is held against.
constexpr double our_tolerance = 1e-6;
constexpr double reference_tolerance = 1e-9;

run::Record go(const build::Build& build, const build::Timeline& timeline, double ambient_c,
               run::Settings settings) {
  settings.keeps_samples = false;
  settings.settles = quantity::Second::of_si(86400.0);
  base::NoProgress nobody;
  return run::run(build, timeline, {.ambient = quantity::Temperature::of_celsius(ambient_c)},
                  settings, nobody);
}

run::Settings by_stepper() { return {.relative_tolerance = our_tolerance}; }

run::Settings by_reference(double stops_at_s) {
  run::Settings settings;
  settings.integrator = [stops_at_s](hybrid::System& system, std::vector<double> y) {
    return std::make_unique<reference::IdaIntegrator>(system, reference_tolerance, stops_at_s,
                                                      std::move(y));
  };
  return settings;
}

/// Events are compared up to the first repeat of one within two seconds, in a run that never rests
/// within a minute: from there on a chattering build amplifies every difference.
std::size_t comparable(const run::Record& record) {
  const std::vector<run::Event>& events = record.events;
  const double within_s = record.outcome.ended == hybrid::Ended::Restless ? 60.0 : 2.0;
  for (std::size_t k = 0; k < events.size(); ++k) {
    for (std::size_t j = 0; j < k; ++j) {
      if (events[j].part == events[k].part && events[j].words == events[k].words &&
          (events[k].at - events[j].at).si() < within_s) {
        return k;
      }
    }
  }
  return events.size();
}

/// `ours` against `theirs`, event by event for the first `count`.
void compare_events(const run::Record& ours, const run::Record& theirs, std::size_t count) {
  REQUIRE(theirs.events.size() >= count);
  for (std::size_t k = 0; k < count; ++k) {
    CAPTURE(k);
    CAPTURE(theirs.events[k].part);
    CAPTURE(theirs.events[k].words);
    CHECK(ours.events[k].part == theirs.events[k].part);
    CHECK(ours.events[k].words == theirs.events[k].words);
    const double at_s = theirs.events[k].at.si();
    CHECK(std::abs(ours.events[k].at.si() - at_s) <= std::max(1e-3, 1e-5 * at_s));
  }
}

void compare_energies(const run::Record& ours, const run::Record& theirs) {
  double flows_j = 0.0;
  for (const run::Account& account : theirs.books.accounts) {
    flows_j += account.supplied.si() + account.served.si() + account.lost.si();
  }
  for (std::size_t k = 0; k < theirs.books.accounts.size(); ++k) {
    const run::Account& a = ours.books.accounts[k];
    const run::Account& b = theirs.books.accounts[k];
    CAPTURE(b.name);
    CHECK(std::abs((a.supplied - b.supplied).si()) <= 1e-5 * flows_j);
    CHECK(std::abs((a.served - b.served).si()) <= 1e-5 * flows_j);
    CHECK(std::abs((a.lost - b.lost).si()) <= 1e-5 * flows_j);
  }
}

void compare_random(std::uint64_t first, std::uint64_t last) {
  for (const std::uint64_t seed : test::seeds(first, last)) {
    CAPTURE(seed);
    const test::RandomBuild random(seed);
    const build::Build build = random.build();
    const build::Timeline& timeline = build.timelines.front();
    const run::Record ours = go(build, timeline, random.ambient_c, by_stepper());
    const std::size_t count = comparable(ours);
    const bool chatters = count < ours.events.size();
    REQUIRE((chatters || ours.outcome.ended == hybrid::Ended::AtTime));
    const double stops_at_s = chatters ? ours.events[count].at.si() + 1.0 : HUGE_VAL;
    const run::Record theirs = go(build, timeline, random.ambient_c, by_reference(stops_at_s));
    compare_events(ours, theirs, count);
    if (chatters) continue;
    REQUIRE(theirs.outcome.ended == hybrid::Ended::AtTime);
    CHECK(ours.events.size() == theirs.events.size());
    compare_energies(ours, theirs);
  }
}

}  // namespace

TEST_CASE("random builds 1 to 50 against IDA: event times to 1e-5 or 1 ms, energies to 1e-5") {
  compare_random(1, 50);
}
TEST_CASE("random builds 51 to 100 against IDA: event times to 1e-5 or 1 ms, energies to 1e-5") {
  compare_random(51, 100);
}
TEST_CASE("random builds 101 to 150 against IDA: event times to 1e-5 or 1 ms, energies to 1e-5") {
  compare_random(101, 150);
}
TEST_CASE("random builds 151 to 200 against IDA: event times to 1e-5 or 1 ms, energies to 1e-5") {
  compare_random(151, 200);
}

// Full is reached in the gap between two bursts, or in the next: at 1e-6 a microampere makes it the
// next, so that both solvers are held tight here.
TEST_CASE("examples/tide-hut against IDA: a whole storm until full again, event by event") {
  const auto sheet =
      build::read_sheet_file((test::examples_dir() / "tide-hut").string(), shelf::built_in_shelf());
  REQUIRE(sheet);
  const build::Build& build = sheet.value();
  const build::Timeline& storm = build.timelines.front();
  const run::Record ours = go(build, storm, 19.0, {.relative_tolerance = 1e-8});
  const run::Record theirs = go(build, storm, 19.0, by_reference(HUGE_VAL));
  REQUIRE(ours.outcome.ended == hybrid::Ended::AtTime);
  REQUIRE(theirs.outcome.ended == hybrid::Ended::AtTime);
  REQUIRE(ours.pack_fulls.size() == 2);
  CHECK(ours.events.size() == theirs.events.size());
  compare_events(ours, theirs, ours.events.size());
  compare_energies(ours, theirs);
}
