// Which samples of a run are told, and how much room each time gets.
#include "question/trace.hpp"

#include <doctest/doctest.h>

using namespace tideover;
using quantity::Second;

namespace {

/// A day sampled every ten seconds, with an event every `apart` samples seen from both sides.
run::Record day(int apart) {
  run::Record record;
  for (int k = 0; k <= 8640; ++k) {
    const Second at = Second::of_si(10.0 * k);
    record.instants.push_back(at);
    if (k == 0 || k % apart != 0) continue;
    record.instants.push_back(at);
    record.events.push_back({at, "relay", "lets go"});
  }
  record.stretches.push_back({Second::of_si(0.0), Second::of_si(3600.0)});
  record.stretches.push_back({Second::of_si(3600.0), Second::of_si(86400.0)});
  return record;
}

}  // namespace

TEST_CASE("A trace keeps the sample behind every event, and never more than it may") {
  for (const int apart : {1, 3, 100, 8000}) {
    CAPTURE(apart);
    const run::Record record = day(apart);
    const auto kept = question::told_instants(record);
    CHECK(kept.size() <= question::most_instants);
    CHECK(kept.back() == record.instants.size() - 1);
    for (std::size_t i = 1; i < kept.size(); ++i) {
      REQUIRE(record.instants[kept[i - 1]] < record.instants[kept[i]]);
    }
    if (apart < 100) continue;
    for (const run::Event& event : record.events) {
      bool is_told = false;
      for (const std::size_t k : kept) is_told = is_told || record.instants[k] == event.at;
      CHECK(is_told);
    }
  }
}

TEST_CASE("Folds follow one another from the start to the end of a run") {
  const auto folds = question::folds_of(day(100));
  REQUIRE(folds.size() == 2);
  CHECK(folds[0].from_s == 0.0);
  CHECK(folds[0].to_s == folds[1].from_s);
  CHECK(folds[1].to_s == 86400.0);
  CHECK(folds[0].share + folds[1].share == doctest::Approx(1.0));
  CHECK(folds[0].share > 3600.0 / 86400.0);
}
