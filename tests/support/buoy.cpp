#include "support/buoy.hpp"

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace tideover::test {

std::string buoy_sheet(const Buoy& values) {
  return "[sheet]\ntitle = 'Light buoy'\n[needs]\noutlast = '" + values.outlast +
         "'\nambient = '20 degC to 30 degC'\n[parts.lamp]\nkind = 'load'\naccepts = '9 V to 13 V'\n"
         "draws_current = " +
         values.draws + "\n" + values.more_of_lamp + R"(
[parts.shore]
kind = "adapter"
output = "12 V"
rated = "1 A"
hold_up = "18 ms"
)" + values.more_of_shore +
         R"(
[parts.dummy]
kind = "resistor"
resistance = "1 kOhm"
rated = "1 W"
[parts.pack]
kind = "pack"
series = 3
[parts.pack.cell]
capacity = )" +
         values.capacity + R"(
branch_gap = "0 V"
quick_resistance = "0.01 mOhm"
charge_to = "3.6 V"
discharge_to = "2.9 V"
charge_current = "4 A"
discharge_current = "8 A"
resistance = [{ soc = "50 %", resistance = "0.01 mOhm" }]
rest = [
  { soc = "0 %", voltage = "2.9 V" },
  { soc = "5 %", voltage = "3.2 V" },
  { soc = "100 %", voltage = "3.6 V" },
]
[joins]
rail = { terminals = ["pack.plus", "lamp.plus"] }
common = { terminals = ["pack.minus", "lamp.minus", "shore.minus", "dummy.b"] }
mains = { terminals = ["shore.plus", "dummy.a"] }
[start]
settled = false
pack = { charge = "100 %" }
[[timelines.night.stretch]]
mains = "present"
lasts = "10 s"
[[timelines.night.stretch]]
mains = "absent"
until = "all loads lost"
)";
}

build::Build buoy(const Buoy& values) {
  auto read = build::read_sheet(buoy_sheet(values), "buoy.toml", shelf::built_in_shelf());
  if (!read) {
    for (const base::Problem& problem : read.problems()) MESSAGE(base::show(problem));
  }
  REQUIRE(read.has_value());
  return std::move(read).value();
}

}  // namespace tideover::test
