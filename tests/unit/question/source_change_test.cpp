// Which instants of a run are changes of what feeds the loads, and when each is over.
#include "question/source_change.hpp"

#include <doctest/doctest.h>

#include "question/excerpt.hpp"
#include "support/hut.hpp"

using namespace tideover;
using namespace tideover::question;
using network::Effect;
using test::hut;
using test::HutRun;
using What = SourceChange::What;

namespace {

HutRun outage() {
  HutRun run;
  run.event(run.loss_s(), "mains24", "loses the mains", Effect::MainsGoes);
  run.event(run.loss_s() + 0.09, "mains24", "its output falls", Effect::Stops);
  run.event(run.return_s(), "mains24", "has the mains back", Effect::MainsReturns);
  run.event(run.return_s() + 3.0, "mains24", "starts", Effect::Resumes);
  run.event(run.return_s() + 3.2, "sea_relay", "picks up");
  return run;
}

void cut(HutRun& run) {
  run.cut_off(4000.0, "gauge", "shows nothing");
  run.event(run.loss_s() + 4000.0, "board", "cuts the discharge path: group 3 is empty",
            Effect::Stops);
}

}  // namespace

TEST_CASE("given an outage, then the mains goes and comes back, and each is told by its name") {
  const auto changes = source_changes_of(outage().record(), hut());
  REQUIRE(changes.size() == 2);
  CHECK(changes[0].words == "the mains goes");
  CHECK(changes[0].before == "mains present");
  CHECK(changes[0].what == What::Mains);
  CHECK(changes[0].stretch == 1U);
  CHECK(changes[1].words == "the mains comes back");
  CHECK(changes[1].before == "mains absent");
}

TEST_CASE("a change is over a second after the last thing happened, and an adapter is waited for") {
  const HutRun run = outage();
  const auto changes = source_changes_of(run.record(), hut());
  REQUIRE(changes.size() == 2);
  CHECK(changes[0].until.si() == doctest::Approx(run.loss_s() + 0.09 + quiet_s));
  CHECK(changes[1].until.si() == doctest::Approx(run.return_s() + 3.2 + quiet_s));
  CHECK(changes[0].is_over);
}

TEST_CASE("given a pack that is cut off and let go again, then both are changes of the board's") {
  HutRun run = outage();
  cut(run);
  run.event(run.return_s() + 20.0, "board", "lets the pack discharge again", Effect::Resumes);
  const auto changes = source_changes_of(run.record(), hut());
  REQUIRE(changes.size() == 4);
  CHECK(changes[1].what == What::CutOff);
  CHECK(changes[1].words == "board cuts the discharge path: group 3 is empty");
  CHECK_FALSE(changes[1].stretch);
  CHECK(changes[3].what == What::Release);
}

TEST_CASE("a board that lets go while adapters still start belongs to the return of the mains") {
  HutRun run = outage();
  cut(run);
  run.event(run.return_s() + 3.3, "board", "lets the pack discharge again", Effect::Resumes);
  const auto changes = source_changes_of(run.record(), hut());
  REQUIRE(changes.size() == 3);
  CHECK(changes[2].until.si() == doctest::Approx(run.return_s() + 3.3 + quiet_s));
}

TEST_CASE("an excerpt counts from its change") {
  const HutRun run = outage();
  const run::Record record = run.record();
  const auto changes = source_changes_of(record, hut());
  const run::Record cut = excerpt(record, changes.front());
  REQUIRE(cut.events.size() == 2);
  CHECK(cut.events[0].at.si() == 0.0);
  CHECK(cut.events[1].at.si() == doctest::Approx(0.09));
  CHECK(cut.samples_si.front().size() == cut.instants.size());
  CHECK(cut.stretches.back().words == "mains absent");
}

TEST_CASE(
    "a mains that comes back at the very cut-off is told with it: the pack was the last source") {
  HutRun run = outage();
  const double dark_s = run.return_s() - run.loss_s();
  run.cut_off(dark_s, "gauge", "shows nothing");
  run.event(run.return_s(), "board", "cuts the discharge path: group 3 is empty", Effect::Stops);
  const auto changes = source_changes_of(run.record(), hut());
  REQUIRE(changes.size() == 2);
  CHECK(changes[1].what == What::CutOff);
  CHECK(changes[1].words ==
        "board cuts the discharge path: group 3 is empty, and at once the mains comes back");
}
