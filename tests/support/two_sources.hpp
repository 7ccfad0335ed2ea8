// A load on two adapters, as a sheet: how it goes over from one to the other is the question.
#pragma once

#include <string>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace tideover::test {

struct TwoSources {
  std::string load = "draws = \"6 W\"\naccepts = \"18 V to 28 V\"\n";
  std::string source = "output = \"24 V\"\nrated = \"1.5 A\"\n";  ///< of main and spare
  /// Everything between the sources and the load but the returns of these.
  std::string between;
  std::string away = "main = \"unplugged\"";

  [[nodiscard]] std::string sheet() const {
    return "[needs]\noutlast = \"1 min\"\n[parts.buoy]\nkind = \"load\"\n" + load +
           "[parts.main]\nkind = \"adapter\"\n" + source + "[parts.spare]\nkind = \"adapter\"\n" +
           source + between +
           "[joins.returns]\nterminals = [\"main.minus\", \"spare.minus\", \"buoy.minus\"]\n"
           "[[timelines.sweep.stretch]]\nmains = \"present\"\nlasts = \"1 min\"\n"
           "[[timelines.sweep.stretch]]\nmains = { " +
           away + " }\nlasts = \"1 min\"\n";
  }
  [[nodiscard]] build::Build build() const {
    auto read = build::read_sheet(sheet(), "two.toml", shelf::built_in_shelf());
    REQUIRE_MESSAGE(read, (read ? std::string() : base::show(read.problems().front())));
    return read.value().copy();
  }
};

// A relay whose coil hangs on the rail that it switches.
inline TwoSources coil_on_the_rail() {
  return {.between = R"([parts.k1]
kind = "relay"
coil_rated = "24 V"
coil_resistance = "1.4 kOhm"
suppression = "diode"
[leads]
a = { between = ["main.plus", "k1.work"], size = "0.75 mm2", length = "100 mm" }
b = { between = ["main.plus", "k1.coil_plus"], size = "0.75 mm2", length = "100 mm" }
c = { between = ["spare.plus", "k1.rest"], size = "0.75 mm2", length = "100 mm" }
d = { between = ["k1.common", "buoy.plus"], size = "0.75 mm2", length = "100 mm" }
e = { between = ["main.minus", "k1.coil_minus"], size = "0.75 mm2", length = "100 mm" }
)"};
}

// The coil hangs on a third adapter, which is pulled: the contacts leave a source that is there,
// and the load has none until they arrive.
inline TwoSources fixed_transfer(const std::string& load, const std::string& travel) {
  TwoSources made;
  made.load = load;
  made.source = "output = \"12 V\"\nrated = \"10 A\"\nsource_resistance = \"1 mOhm\"\n";
  made.between = R"([parts.sense]
kind = "adapter"
output = "12 V"
rated = "1 A"
[parts.k1]
kind = "relay"
coil_rated = "12 V"
coil_resistance = "400 Ohm"
bounce = "0 s"
contact_resistance = "1 mOhm"
contact_rated = "10 A"
return_travel = ")" +
                 travel +
                 R"("
[joins]
a = { terminals = ["main.plus", "k1.work"] }
b = { terminals = ["sense.plus", "k1.coil_plus"] }
c = { terminals = ["spare.plus", "k1.rest"] }
d = { terminals = ["k1.common", "buoy.plus"] }
e = { terminals = ["sense.minus", "k1.coil_minus"] }
[leads.common]
between = ["sense.minus", "main.minus"]
size = "0.75 mm2"
length = "10 cm"
)";
  made.away = "sense = \"unplugged\"";
  return made;
}

}  // namespace tideover::test
