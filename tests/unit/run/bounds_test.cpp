// Runs that would never come to an end by themselves.
#include <doctest/doctest.h>

#include "run/circuit.hpp"
#include "run/run.hpp"
#include "run/settle.hpp"
#include "support/random_build.hpp"

namespace {

using namespace tideover;

/// Somebody who has had enough from the start.
class Impatient final : public base::Progress {
 public:
  void report(double, std::string_view) override { ++reports; }
  [[nodiscard]] bool stop_asked() const override { return true; }
  int reports = 0;
};

run::Settings brief() {
  return {.keeps_samples = false, .settles = quantity::Second::of_si(86400.0)};
}

}  // namespace

TEST_CASE("given a charger that comes on and goes off for ever, then the run ends and names it") {
  const test::RandomBuild random(14);
  const build::Build build = random.build();
  base::NoProgress nobody;
  const auto record =
      run::run(build, build.timelines.front(),
               {.ambient = quantity::Temperature::of_celsius(random.ambient_c)}, brief(), nobody);
  CHECK(record.outcome.ended == hybrid::Ended::Restless);
  CHECK(record.outcome.why == "charger");
  CHECK(record.statistics.reactions < 20000);
  REQUIRE(!record.chatters.empty());
  CHECK(record.books.open_share < 1e-5);
}

TEST_CASE("given an empty pack and no mains, when full is waited for, then not for sixty days") {
  const build::Build build = test::RandomBuild(1).build();
  build::Timeline timeline{"dark", {}, 1};
  build::Stretch dark;
  dark.changes.push_back(
      {.what = build::Change::What::Mains, .mains = build::Change::Mains::Absent});
  dark.until = build::Until::PackCutOff;
  timeline.stretches.push_back(dark);
  dark.until = build::Until::PackFull;
  timeline.stretches.push_back(dark);
  base::NoProgress nobody;
  const auto record = run::run(build, timeline, {}, brief(), nobody);
  REQUIRE(record.stretches.size() == 2);
  CHECK(record.stretches.front().ended_as_asked);
  CHECK(!record.stretches.back().ended_as_asked);
  const auto waited = record.stretches.back().ends - record.stretches.back().begins;
  CHECK(waited.si() > 6.0 * 3600.0);
  CHECK(waited.si() < 50.0 * 86400.0);
  CHECK(record.outcome.ended == hybrid::Ended::AtTime);
}

TEST_CASE("given somebody who stops while the build settles, then it stops at the next step") {
  const build::Build build = test::RandomBuild(1).build();
  Impatient impatient;
  run::Circuit circuit = run::assemble(build, {});
  const run::Settled settled =
      run::settle(circuit, build, quantity::Second::of_si(86400.0), impatient);
  CHECK(settled.outcome.ended == hybrid::Ended::ByObserver);
  CHECK(settled.outcome.time_s < -80000.0);
  CHECK(impatient.reports == 1);
  const auto record = run::run(build, build.timelines.front(), {}, brief(), impatient);
  CHECK(record.is_partial);
}
