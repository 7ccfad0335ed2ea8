// A resistance in the way: what a data cable leaves of the power sent over it, and what a meter's
// own resistance takes.
// Cable: sources 44 V 15.4 W, 50 V 30 W and 52 V 90 W, devices 37 V 12.95 W, 42.5 V 25.5 W and 41.1
// V 71.3 W (IEEE 802.3 as restated by a tester's manual and public notes, read); loop resistances
// computed. Meter: a bench meter's manual, read.
#include <doctest/doctest.h>

#include "part/load/load_draw.hpp"
#include "part/resistor/resistor.hpp"
#include "support/closeness.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using tests::PartBench;
using tests::relative_error;
using tests::stated;

/// A supply, resistances side by side, and what they feed.
class Way {
 public:
  Way(double source_v, int paths, double path_ohm, const part::LoadDraw& load) {
    bench_.net.add(tests::BenchSupply{.volts = source_v, .ohms = 1e-6},
                   {bench_.point("source"), network::reference_node}, "source");
    for (int k = 1; k <= paths; ++k) {
      part::Resistor path;
      path.name = "path" + std::to_string(k);
      path.resistance = stated(Ohm::of_si(path_ohm));
      bench_.install(path, {{"a", "source"}, {"b", "device"}});
    }
    bench_.net.add(load, {bench_.point("device"), network::reference_node}, "device");
    bench_.start();
    bench_.go(1e-3);
  }
  [[nodiscard]] double device_v() { return bench_.volts("device"); }
  [[nodiscard]] double drop_v() { return bench_.volts("source") - device_v(); }

 private:
  PartBench bench_;
};

struct Row {
  double source_v, source_w;
  int pair_sets;
  double pair_ohm, device_v, device_w;
};

}  // namespace

TEST_CASE("power over a data cable arrives as its three standards say (IEEE 802.3, restated)") {
  for (const Row& row :
       {Row{44.0, 15.4, 1, 20.0, 37.0, 12.95}, Row{50.0, 30.0, 1, 12.5, 42.5, 25.5},
        Row{52.0, 90.0, 2, 12.5, 41.2, 71.28}}) {
    Way way(row.source_v, row.pair_sets, row.pair_ohm,
            {.power_w = row.device_w, .resistive_below_v = 30.0});
    CAPTURE(row.source_w);
    CHECK(std::abs(way.device_v() - row.device_v) < 0.05);
    const double sent_a = way.drop_v() * row.pair_sets / row.pair_ohm;
    CHECK(relative_error(row.source_v * sent_a, row.source_w) < 1e-3);
    // The same manual prints 99 W for the strongest class: the cable does not take so much.
    CHECK(row.source_v * sent_a < 0.95 * 99.0);
  }
}

TEST_CASE("burden: 10 V over 10 Ohm and a meter of 0.5 Ohm read 0.952381 A (manual, read)") {
  Way way(10.0, 1, 0.5, {.conductance_s = 0.1});
  CHECK(relative_error(way.drop_v() / 0.5, 0.952381) < 1e-5);
  Way shunt(1.0, 1, 0.01, {.conductance_s = 1.0});
  CHECK(relative_error(shunt.drop_v() / 0.01, 1.0 - 0.0099) < 1e-4);
}
