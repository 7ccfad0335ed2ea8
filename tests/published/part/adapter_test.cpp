// Hold-up of mains adapters: about one mains cycle, 16 to 20 ms at full load and longer at part
// load (a public note on power supplies, read; the scaling is arithmetic). IEC 61204 leaves hold-up
// to the maker's declaration (from memory).
#include "part/adapter/adapter.hpp"

#include <doctest/doctest.h>

#include "part/load/load_draw.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using network::Stimulus;
using part::LoadDraw;
using tests::PartBench;
using tests::stated;

/// Seconds from the loss of the mains until the store is used up, at `share` of the rated power.
double hold_up_s(double share) {
  part::Adapter adapter;
  adapter.name = "mains24";
  adapter.output = stated(24.0_V);
  adapter.rated = stated(1.5_A);
  PartBench bench;
  bench.install(adapter, {{"plus", "rail"}, {"minus", "0"}});
  bench.net.add(LoadDraw{.power_w = 36.0 * share, .resistive_below_v = 6.0},
                {bench.point("rail"), network::reference_node}, "device");
  bench.start();
  bench.go(1.0);
  bench.stimulate({.what = Stimulus::What::MainsLost});
  bench.go(2.0);
  const double used_up =
      bench.said_s("mains24", "has used up what it had stored: its output falls");
  REQUIRE(used_up > 1.0);
  return used_up - 1.0;
}

}  // namespace

TEST_CASE("an adapter at full load holds up for 16 to 20 ms (public note, read)") {
  const double full = hold_up_s(1.0);
  CHECK(full > 16e-3);
  CHECK(full < 20e-3);
}

TEST_CASE("hold-up is inverse to the load: twice at half of it (arithmetic)") {
  // The part of the loss that does not fall with the load, and the part that falls faster, leave
  // a tenth either way.
  CHECK(hold_up_s(0.5) / hold_up_s(1.0) == doctest::Approx(2.0).epsilon(0.1));
}
