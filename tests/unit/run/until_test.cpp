// When a stretch that waits for loads to be lost is over.
#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"

using namespace tideover;

namespace {

// One device on one adapter; its plug is pulled for a moment, then for good.
const char* const sheet = R"(
[needs]
outlast = "10 min"
[parts.lamp]
kind = "load"
draws = "3 W"
accepts = "10 V to 14 V"
boot = "20 s"
[parts.wall]
kind = "adapter"
output = "12 V"
rated = "1 A"
[leads.there]
between = ["wall.plus", "lamp.plus"]
size = "0.75 mm2"
length = "1 m"
[leads.back]
between = ["lamp.minus", "wall.minus"]
size = "0.75 mm2"
length = "1 m"
[[timelines.pull.stretch]]
mains = "present"
lasts = "1 min"
[[timelines.pull.stretch]]
mains = "unplugged"
lasts = "5 s"
[[timelines.pull.stretch]]
mains = "present"
lasts = "10 min"
until = "all loads lost"
[[timelines.pull.stretch]]
mains = "unplugged"
until = "all loads lost"
)";

}  // namespace

TEST_CASE("a restart is not a loss, and a loss is known when no restart would take as long") {
  const auto read = build::read_sheet(sheet, "lamp.toml", shelf::built_in_shelf());
  REQUIRE(read);
  base::NoProgress nobody;
  const run::Record record = run::run(read.value(), read.value().timelines.front(), {}, {}, nobody);
  REQUIRE(record.stretches.size() == 4);
  // The lamp is still starting up as the third stretch begins: it restarts, it is not lost.
  CHECK_FALSE(record.stretches[2].ended_as_asked);
  CHECK((record.stretches[2].ends - record.stretches[2].begins).si() == doctest::Approx(600.0));
  // Unplugged for good it goes within a moment, and 20 s of boot and 10 s later that is certain.
  CHECK(record.stretches[3].ended_as_asked);
  const double waited_s = (record.stretches[3].ends - record.stretches[3].begins).si();
  CHECK(waited_s > 30.0);
  CHECK(waited_s < 31.0);
}
