// Lithium cells as they arrive: common practice, no source.
#include <string>

#include <doctest/doctest.h>

#include "shelf/shelf.hpp"
#include "support/shelf_cell.hpp"
#include "trade/small_build.hpp"

using namespace tideover;
using test::leads;
using test::SmallRun;

namespace {

/// Charge at which a cell of the shelf rests at so many volts, in percent.
std::string percent_at(const std::string& row, double rest_v) {
  const part::Cell cell = tests::shelf_cell(row);
  for (std::size_t k = 1; k < cell.rest.size(); ++k) {
    const double above_v = cell.rest[k].voltage.si();
    if (above_v < rest_v) continue;
    const double below_v = cell.rest[k - 1].voltage.si();
    const double below = cell.rest[k - 1].soc.si();
    const double share = (rest_v - below_v) / (above_v - below_v);
    return std::to_string(100.0 * (below + share * (cell.rest[k].soc.si() - below))) + " %";
  }
  return "100 %";
}

/// A carton of twenty cells behind an open switch, for months.
std::string in_its_carton(const std::string& row, const std::string& months) {
  return "[parts.cell]\nkind = \"pack\"\nseries = 1\nparallel = 20\ncell = \"shelf:" + row +
         "\"\ncharge = \"" + percent_at(row, 3.80) +
         "\"\nwhere = \"outside\"\n"
         "[parts.carton]\nkind = \"switch\"\nstart = 0\n"
         "[parts.bench]\nkind = \"resistor\"\nresistance = \"100 Ohm\"\n"
         "[leads]\n" +
         leads("cell.plus - carton.common, carton.way1 - bench.a, bench.b - cell.minus") +
         "[start]\nsettled = false\n[[timelines.transit.stretch]]\nlasts = \"" + months + "\"\n";
}

struct Store {
  double days, celsius;
};

}  // namespace

// "Most of a year": eight to eleven months, in stores of 18 to 25 degC.
TEST_CASE("lithium cells shipped at 3.80 V stand between 3.70 and 3.79 V after most of a year") {
  for (const std::string& row : shelf::built_in_shelf().names("cell")) {
    if (!row.starts_with("nmc")) continue;
    CAPTURE(row);
    for (const Store& store : {Store{240.0, 18.0}, Store{300.0, 21.0}, Store{330.0, 25.0}}) {
      CAPTURE(store.days);
      CAPTURE(store.celsius);
      // Hardly any energy flows, and the books are judged against what does.
      const run::Settings still{.relative_tolerance = 1e-6};
      const SmallRun run(in_its_carton(row, std::to_string(store.days) + " d"), store.celsius,
                         still);
      CHECK(run.at(10.0, "cell", "voltage") == doctest::Approx(3.80).epsilon(0.006));
      const double rested_v = run.at(store.days * 86400.0 - 1.0, "cell", "voltage");
      CHECK(rested_v > 3.70);
      CHECK(rested_v < 3.79);
    }
  }
}
