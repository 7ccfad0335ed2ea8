// A device's own adapter that also charges a pack: common practice, no source.
#include <doctest/doctest.h>

#include "trade/small_build.hpp"

using tideover::test::leads;
using tideover::test::SmallRun;

namespace {

/// A 19.3 V adapter rated 1.75 A with its device, and a step-down charger behind it that is set to
/// so much. The pack starts empty: the longest charge.
std::string shared_adapter(const std::string& charger_current) {
  return R"([parts.mains]
kind = "adapter"
output = { value = "19.3 V", origin = "measured" }
rated = { value = "1.75 A", origin = "datasheet" }
[parts.device]
kind = "load"
draws_current = "0.55 A"
accepts = "17.5 V to 21 V"
rides = "10 ms"
[parts.plug]
kind = "switch"
start = 0
[parts.charger]
kind = "charger"
from = "shelf:adjusted-step-down"
current = { value = ")" +
         charger_current + R"(", origin = "measured" }
[parts.pack]
kind = "pack"
cell = "shelf:nmc-18650-2800"
series = 4
charge = "5 %"
parallel = 2
[leads]
)" +
         leads(
             "mains.plus - device.plus, device.minus - mains.minus, mains.plus - plug.common, "
             "plug.way1 - charger.in_plus, charger.in_minus - mains.minus, charger.out_plus - "
             "pack.plus, pack.minus - mains.minus") +
         "[start]\nsettled = false\n"
         "[[timelines.bench.stretch]]\nmains = \"present\"\nlasts = \"60 s\"\n"
         "[[timelines.bench.stretch]]\nswitches = { plug = 1 }\nlasts = \"8 h\"\n";
}

}  // namespace

TEST_CASE("19.3 V, 1.75 A, device 0.55 A: a charger set to 0.9 A leaves head-room throughout") {
  const SmallRun run(shared_adapter("0.9 A"), 23.0);
  // 16.8 V x 0.9 A over 0.9 of efficiency and 19 V: 0.88 A beside the device's 0.55 A.
  CHECK(run.at(4.0 * 3600.0, "mains", "share of rating") < 0.85);
  CHECK_FALSE(run.exceeds("mains", "rated current"));
  CHECK(run.at(4.0 * 3600.0, "device", "input voltage") > 18.5);
  CHECK(run.said_s("device", "is lost") < 0.0);
  CHECK(run.at(8.0 * 3600.0 - 1.0, "pack", "charge") > 0.9);
}

TEST_CASE("the same with the charger's limit at 3 A: overloaded, and the device's rail collapses") {
  const SmallRun run(shared_adapter("3 A"), 23.0);
  CHECK(run.exceeds("mains", "rated current"));
  CHECK(run.at(1800.0, "mains", "share of rating") > 1.0);
  CHECK(run.at(1800.0, "device", "input voltage") < 17.5);
  CHECK(run.said_s("device", "is lost") >= 60.0);
}
