// A reading at the bench against a label or a class: common practice, no source.
#include <cmath>

#include <doctest/doctest.h>

#include "part/converter/converter.hpp"
#include "part/fan/fan.hpp"
#include "trade/small_build.hpp"

using namespace tideover;
using test::leads;
using test::SmallRun;

namespace {

std::string on_supply(const std::string& volts, const std::string& part,
                      const std::string& wiring) {
  return "[parts.supply]\nkind = \"adapter\"\noutput = \"" + volts +
         "\"\nrated = \"2 A\"\nsource_resistance = \"10 mOhm\"\n" + part + "[leads]\n" +
         leads(wiring) + "[[timelines.bench.stretch]]\nmains = \"present\"\nlasts = \"5 min\"\n";
}

std::string fan_on(const std::string& volts, const std::string& reading) {
  return on_supply(volts,
                   "[parts.fan]\nkind = \"fan\"\nrated_voltage = \"12 V\"\nrated_current = { value "
                   "= \"100 mA\", origin = \"datasheet\" }\n" +
                       reading,
                   "supply.plus - fan.plus, fan.minus - supply.minus");
}

const std::string fan_reading =
    "measured = [{ voltage = \"12 V\", current = { value = \"150 mA\", origin = \"measured\" } "
    "}]\n";

/// A tiny board at 6.0 V into 71 mA, on 14.4 V.
std::string tiny_board(const std::string& reading) {
  return on_supply("14.4 V",
                   "[parts.tiny]\nkind = \"converter\"\nfrom = \"shelf:tiny-step-down\"\noutput = "
                   "\"6.0 V\"\noutput_resistance = \"1 mOhm\"\nwhere = \"outside\"\n" +
                       reading +
                       "[parts.fan]\nkind = \"load\"\ndraws_current = \"71 mA\"\naccepts = \"4 V "
                       "to 13 V\"\n",
                   "supply.plus - tiny.in_plus, tiny.in_minus - supply.minus, tiny.out_plus - "
                   "fan.plus, fan.minus - tiny.in_minus");
}

const std::string board_reading =
    "measured = [{ input = \"14.4 V\", input_current = { value = \"45 mA\", origin = \"measured\" "
    "}, output = \"6.0 V\", output_current = \"71 mA\" }]\n";

}  // namespace

TEST_CASE("fan: the label says 100 mA, the meter 150 mA at 12 V: then 71 mA at 6 V") {
  const SmallRun half(fan_on("6 V", fan_reading), 23.0);
  CHECK(std::abs(half.at(200.0, "fan", "current") - 71e-3) < 10e-3);
  const SmallRun full(fan_on("12 V", fan_reading), 23.0);
  CHECK(full.at(200.0, "fan", "current") == doctest::Approx(150e-3).epsilon(0.005));
  const SmallRun by_label(fan_on("12 V", ""), 23.0);
  CHECK(by_label.at(200.0, "fan", "current") == doctest::Approx(100e-3).epsilon(0.005));
}

TEST_CASE("fan: what was measured counts, and the part says so beside its label") {
  const build::Build measured = test::small_build(fan_on("12 V", fan_reading));
  const auto remarks = measured.find("fan")->remarks();
  REQUIRE(remarks.size() == 1);
  CHECK(remarks.front() ==
        "rated_current: 100 mA by its label, 150 mA as measured at 12 V; what was measured counts");
  CHECK(test::small_build(fan_on("12 V", "")).find("fan")->remarks().empty());
}

TEST_CASE("tiny step-down board, 6.0 V 71 mA from 14.4 V: 45 mA within 8 mA by its class alone") {
  const SmallRun run(tiny_board(""), 23.0);
  CHECK(run.at(200.0, "tiny", "output voltage") == doctest::Approx(6.0).epsilon(0.005));
  CHECK(std::abs(run.at(200.0, "supply", "output current") - 45e-3) < 8e-3);
  CHECK(run.build().find("tiny")->remarks().empty());
}

TEST_CASE("tiny step-down board: one reading moves what it idles on, and is met") {
  const SmallRun run(tiny_board(board_reading), 23.0);
  // Its leads and the supply's own resistance take a few millivolts off 14.4 V.
  CHECK(run.at(200.0, "supply", "output current") == doctest::Approx(45e-3).epsilon(0.002));
  const auto* const tiny = dynamic_cast<const part::Converter*>(run.build().find("tiny"));
  REQUIRE(tiny != nullptr);
  const part::LossFit fit = tiny->losses();
  CHECK(fit.moved_most == "idle");
  const double idle_moved_a = fit.losses.idle.si() - tiny->idle_draw.si();
  const double square_moved_ohm = fit.losses.square.si() - tiny->square_loss.si();
  CHECK(14.4 * idle_moved_a > 0.9 * (14.4 * 45e-3 - 14.4 * 40.9e-3));
  CHECK(std::abs(square_moved_ohm) < 0.02 * tiny->square_loss.si());
  const auto remarks = tiny->remarks();
  REQUIRE(remarks.size() == 1);
  CHECK(remarks.front().starts_with("measured: the readings move idle_draw most, from 9 mA to 1"));
}
