// What holds for every change of source in every build, asked of random ones.
#include <doctest/doctest.h>

#include "question/changeover.hpp"
#include "support/random_build.hpp"

using namespace tideover;
using namespace tideover::question;
using Outcome = Passage::Outcome;

namespace {

void check_passage(const Passage& passage) {
  CHECK(passage.lowest <= passage.before);
  CHECK(passage.highest >= passage.before);
  CHECK(passage.below.si() >= 0.0);
  const double out_s = passage.out_of_range().si();
  if (passage.outcome == Outcome::InRange) CHECK(out_s == 0.0);
  if (passage.outcome == Outcome::Fails) CHECK(passage.lost_after.has_value());
}

void check_hold_up(const HoldUp& answer) {
  CHECK_FALSE(answer.remarks.empty());
  CHECK(answer.passage.wants_more());
  if (!answer.found) return;
  CHECK(answer.found->si() >= least_tried_f);
  CHECK(answer.found->si() <= most_tried_f * 1.000001);
  const Outcome then = answer.with_found.outcome;
  CHECK((then == Outcome::InRange || then == Outcome::Rides));
  REQUIRE(answer.buy);
  CHECK(0.8 * answer.buy->si() >= answer.found->si() * 0.999999);
  CHECK(answer.rated > answer.with_found.highest);
}

}  // namespace

TEST_CASE("random builds: every load through every change is told, and what is fitted carries it") {
  base::NoProgress nobody;
  const run::Settings brief{.settles = quantity::Second::of_si(86400.0)};
  std::size_t sought = 0;
  for (std::uint64_t seed = 1; seed <= 24; ++seed) {
    CAPTURE(seed);
    const test::RandomBuild random(seed);
    const Changeovers answer = changeover(random.build(), brief, nobody);
    CHECK_FALSE(answer.changes.empty());
    for (const Changeover& change : answer.changes) {
      CAPTURE(change.change.words);
      CHECK(change.times > 0);
      for (const ChangeView& view : change.views) {
        for (const Passage& passage : view.passages) check_passage(passage);
      }
      for (const HoldUp& one : change.hold_ups) check_hold_up(one);
      sought += change.hold_ups.size();
    }
  }
  CHECK(sought > 0);  // else the builds are too tame to prove anything
}
