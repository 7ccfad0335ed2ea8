// From a sheet to a network: which terminals are one node, and which body is whose.
#include "run/circuit.hpp"

#include <string>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"

namespace {

using namespace tideover;

build::Build read(const std::string& text) {
  auto read = build::read_sheet(text, "sheet.toml", shelf::built_in_shelf());
  REQUIRE_MESSAGE(read.has_value(), (read ? "" : read.problems().front().text));
  return std::move(read).value();
}

const std::string two_earthed = R"(
[needs]
outlast = "1 h"

[parts.tide24]
kind = "adapter"
output = "24 V"
rated = "1 A"
earthed = true

[parts.tide12]
kind = "adapter"
output = "12 V"
rated = "1 A"
earthed = true

[parts.gauge]
kind = "load"
draws = "3 W"
accepts = "20 V to 28 V"

[parts.radio]
kind = "load"
draws = "3 W"
accepts = "9 V to 15 V"

[joins.a]
terminals = ["tide24.plus", "gauge.plus"]
[joins.b]
terminals = ["tide24.minus", "gauge.minus"]
[joins.c]
terminals = ["tide12.plus", "radio.plus"]
[joins.d]
terminals = ["tide12.minus", "radio.minus"]
)";

const std::string pack_and_load = R"(
[needs]
outlast = "1 h"

[parts.pack]
kind = "pack"
cell = "shelf:nmc-21700-4000"
series = 3

[parts.lamp]
kind = "load"
draws = "3 W"
accepts = "8 V to 14 V"

[joins.a]
terminals = ["pack.plus", "lamp.plus"]
[joins.b]
terminals = ["pack.minus", "lamp.minus"]

[start]
pack = { temperature = "5 degC" }

[[timelines.short.stretch]]
lasts = "1 s"
)";

}  // namespace

TEST_CASE("the earths of two adapters are one point, though nobody wired them") {
  const build::Build sheet = read(two_earthed);
  const run::Circuit circuit = run::assemble(sheet, {});
  CHECK(circuit.nodes.at({"tide24", "earth"}) == circuit.nodes.at({"tide12", "earth"}));
  CHECK_FALSE(circuit.nodes.at({"tide24", "minus"}) == circuit.nodes.at({"tide12", "minus"}));
}

TEST_CASE("given a pack that starts cold, then its cells are cold") {
  const build::Build sheet = read(pack_and_load);
  base::NoProgress nobody;
  const run::Record record = run::run(sheet, sheet.timelines.front(), {}, {}, nobody);
  const int channel = record.find("pack", "cell temperature");
  REQUIRE(channel >= 0);
  // A second of 0.3 A warms them by less than a thousandth of a kelvin.
  CHECK(record.samples_si.at(static_cast<std::size_t>(channel)).front() ==
        doctest::Approx(278.15).epsilon(1e-6));
}
