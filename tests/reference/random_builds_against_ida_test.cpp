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

namespace {

using namespace tideover;

/// What the stepper is asked for here, a hundredth of its default, and what it is held against.
constexpr double our_tolerance = 1e-6;
constexpr double reference_tolerance = 1e-9;

run::Record go(const build::Build& build, const build::Timeline& timeline, double ambient_c,
               bool by_reference) {
  run::Settings settings{.relative_tolerance = our_tolerance,
                         .keeps_samples = false,
                         .settles = quantity::Second::of_si(86400.0)};
  if (by_reference) {
    settings.integrator = [](hybrid::System& system, std::vector<double> y) {
      return std::make_unique<reference::IdaIntegrator>(system, reference_tolerance, std::move(y));
    };
  }
  base::NoProgress nobody;
  return run::run(build, timeline, {.ambient = quantity::Temperature::of_celsius(ambient_c)},
                  settings, nobody);
}

/// Events are compared up to the first repeat of one within two seconds: from there on a chattering
/// build amplifies every difference.
std::size_t comparable(const std::vector<run::Event>& events) {
  for (std::size_t k = 0; k < events.size(); ++k) {
    for (std::size_t j = 0; j < k; ++j) {
      if (events[j].part == events[k].part && events[j].words == events[k].words &&
          (events[k].at - events[j].at).si() < 2.0) {
        return k;
      }
    }
  }
  return events.size();
}

void compare(const run::Record& ours, const run::Record& theirs) {
  REQUIRE(ours.outcome.ended == hybrid::Ended::AtTime);
  REQUIRE(theirs.outcome.ended == hybrid::Ended::AtTime);
  const std::size_t count = comparable(theirs.events);
  REQUIRE(ours.events.size() >= count);
  for (std::size_t k = 0; k < count; ++k) {
    CAPTURE(k);
    CAPTURE(theirs.events[k].part);
    CAPTURE(theirs.events[k].words);
    CHECK(ours.events[k].part == theirs.events[k].part);
    CHECK(ours.events[k].words == theirs.events[k].words);
    const double at_s = theirs.events[k].at.si();
    CHECK(std::abs(ours.events[k].at.si() - at_s) <= std::max(1e-3, 1e-5 * at_s));
  }
  double flows_j = 0.0;
  for (const run::Account& account : theirs.books.accounts) {
    flows_j += account.supplied.si() + account.served.si() + account.lost.si();
  }
  if (count < theirs.events.size()) return;
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
  for (std::uint64_t seed = first; seed <= last; ++seed) {
    CAPTURE(seed);
    const test::RandomBuild random(seed);
    const build::Build build = random.build();
    const build::Timeline& timeline = build.timelines.front();
    compare(go(build, timeline, random.ambient_c, false),
            go(build, timeline, random.ambient_c, true));
  }
}

}  // namespace

TEST_CASE("random builds 151 to 200 against IDA: event times to 1e-5 or 1 ms, energies to 1e-5") {
  compare_random(151, 200);
}
