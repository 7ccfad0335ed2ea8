#include "question/thinning.hpp"

#include <algorithm>

#include <doctest/doctest.h>

using namespace tideover;
using question::kept_instants;

namespace {

run::Record record_of(std::size_t samples, double step_s) {
  run::Record record;
  for (std::size_t k = 0; k < samples; ++k) {
    record.instants.push_back(quantity::Second::of_si(step_s * static_cast<double>(k)));
  }
  return record;
}

}  // namespace

TEST_CASE("a short run is kept whole") {
  CHECK(kept_instants(record_of(40, 1.0), 50).size() == 40);
  CHECK(kept_instants({}, 50).empty());
}

TEST_CASE("a long run keeps its ends, its events, and a little of everything") {
  run::Record record = record_of(100000, 0.1);
  record.events = {{quantity::Second::of_si(5000.0), "relay", "lets go"}};
  const auto kept = kept_instants(record, 200);
  CHECK(kept.size() <= 200);
  CHECK(kept.front() == 0);
  CHECK(kept.back() == 99999);
  CHECK(std::ranges::is_sorted(kept));
  for (std::size_t k = 50000; k <= 50005; ++k) {
    CHECK(std::ranges::binary_search(kept, k));
  }
  std::size_t widest = 0;
  for (std::size_t k = 1; k < kept.size(); ++k) widest = std::max(widest, kept[k] - kept[k - 1]);
  CHECK(widest <= 2 * 100000 / 190);
}

TEST_CASE("more events than rows are thinned too") {
  run::Record record = record_of(10000, 0.1);
  for (const quantity::Second at : record.instants) record.events.push_back({at, "board", "cuts"});
  CHECK(kept_instants(record, 100).size() <= 100);
}

TEST_CASE("many samples of one instant do not hang it") {
  CHECK(kept_instants(record_of(1000, 0.0), 100).size() <= 100);
}

TEST_CASE("a thinned record keeps instants and samples together") {
  run::Record record = record_of(1000, 1.0);
  record.samples_si.emplace_back();
  for (std::size_t k = 0; k < 1000; ++k) record.samples_si[0].push_back(static_cast<double>(k));
  question::thin(record, 100);
  REQUIRE(record.instants.size() <= 100);
  REQUIRE(record.samples_si[0].size() == record.instants.size());
  for (std::size_t k = 0; k < record.instants.size(); ++k) {
    CHECK(record.instants[k].si() == record.samples_si[0][k]);
  }
}
