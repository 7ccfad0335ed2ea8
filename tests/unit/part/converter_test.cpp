// What a converter does between an input and an output that both may move.
#include "part/converter/converter.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "part/adapter/adapter.hpp"
#include "part/charger/charger.hpp"
#include "part/read_fields.hpp"
#include "part/resistance.hpp"
#include "shelf/shelf.hpp"
#include "support/part_bench.hpp"

namespace {

using namespace tideover;
using namespace quantity;
using namespace quantity::literals;
using part::Converter;
using part::Losses;
using part::Resistance;
using part::Topology;
using tests::BenchSupply;
using tests::PartBench;
using tests::stated;

Converter down5() {
  Converter c;
  c.name = "down5";
  c.output = stated(5.0_V);
  c.rated = stated(2.0_A);
  return c;
}
Converter up12() {
  Converter c;
  c.name = "up12";
  c.topology = Topology::StepUp;
  c.output = stated(12.0_V);
  c.rated = stated(1.0_A);
  c.accepts = {3.0_V, 13.0_V};
  return c;
}

/// Values of a shelf row; none of the rows may be unreadable or contradict itself.
void take_from_shelf(const std::string& list, const std::string& row, part::Part& part) {
  const shelf::Shelf& stock = shelf::built_in_shelf();
  const base::TomlNode* found = stock.find_row(list, row);
  REQUIRE(found != nullptr);
  part::Findings findings;
  part::FieldReader reader(stock, findings, true);
  reader.read_row(*found, part);
  REQUIRE(findings.form.empty());
  INFO(row);
  CHECK(part.contradictions().empty());
}

/// A converter between a laboratory supply and a resistance; a test moves both.
struct Setup {
  PartBench bench;
  network::Handle<BenchSupply> supply;
  network::Handle<Resistance> load;

  Setup(const Converter& converter, double volts, double load_ohm, double supply_ohm = 0.01,
        double air_c = 25.0)
      : bench(air_c) {
    bench.install(converter,
                  {{"in_plus", "in"}, {"in_minus", "0"}, {"out_plus", "out"}, {"out_minus", "0"}});
    supply = bench.net.add(BenchSupply{volts, supply_ohm},
                           {bench.point("in"), network::reference_node}, "supply");
    load = bench.net.add(Resistance{1.0 / load_ohm}, {bench.point("out"), network::reference_node},
                         "load");
    bench.start();
    bench.go(0.1);
  }
  void supply_gives(double volts) {
    bench.net.law(supply).volts = volts;
    bench.disturbed();
  }
  void load_is(double ohms) {
    bench.net.law(load).conductance_s = 1.0 / ohms;
    bench.disturbed();
  }
  [[nodiscard]] double out_v() { return bench.volts("out"); }
  [[nodiscard]] double in_a() {
    const BenchSupply& s = bench.net.law(supply);
    return (s.volts - bench.volts("in")) / s.ohms;
  }
};

}  // namespace

TEST_CASE("given a step-down within its limits, then it holds its voltage and balances its power") {
  Setup at(down5(), 12.0, 5.0);
  const double i = at.out_v() / 5.0;
  // 10 mOhm of output resistance and the divider's 0.25 mA.
  CHECK(at.out_v() == doctest::Approx(5.0 - 0.01 * i).epsilon(1e-5));
  const double out_w = at.out_v() * i;
  const double in_w = at.bench.volts("in") * at.in_a();
  const double lost_w = in_w - out_w;
  CHECK(lost_w == doctest::Approx(12.0 * 0.005 + 0.3 * i + 0.08 * i * i).epsilon(5e-3));
}

TEST_CASE("given a falling input, when it is too low for its voltage, then the output follows it") {
  Setup at(down5(), 12.0, 5.0);
  at.supply_gives(5.0);
  at.bench.go(0.1);
  const double i = at.out_v() / 5.0;
  CHECK(at.out_v() == doctest::Approx(0.95 * at.bench.volts("in") - 0.1 * i).epsilon(1e-3));
  CHECK(down5().lowest_input(5.0_V, 1.0_A).si() == doctest::Approx((5.0 + 0.1) / 0.95));
}

TEST_CASE("given too heavy a load, then its current limit holds, into a short circuit too") {
  Setup at(down5(), 12.0, 1.0);
  CHECK(at.out_v() == doctest::Approx(3.0).epsilon(1e-3));
  at.load_is(0.01);
  at.bench.go(0.1);
  CHECK(at.bench.reads("down5", "output current") == doctest::Approx(3.0).epsilon(1e-3));
  CHECK(at.out_v() == doctest::Approx(0.03).epsilon(1e-2));
  CHECK(at.in_a() < 0.3);
}

TEST_CASE(
    "given a sinking input, then the lockout turns it off and it comes back above, not between") {
  Setup at(down5(), 12.0, 50.0);
  CHECK(at.bench.times_said("down5", "comes on") == 1);
  at.supply_gives(4.1);
  at.bench.go(0.5);
  CHECK(at.bench.times_said("down5", "turns off: too little input") == 1);
  CHECK(at.out_v() < 1e-3);
  at.supply_gives(4.4);
  at.bench.go(0.1);
  CHECK(at.bench.times_said("down5", "comes on") == 1);
  at.supply_gives(4.6);
  at.bench.go(0.1);
  CHECK(at.bench.times_said("down5", "comes on") == 2);
  CHECK(at.out_v() > 4.2);
}

namespace {

/// 12 V behind 3 ohm, a lockout not far below, and more load than the source can carry.
Converter overloaded() {
  Converter c = down5();
  c.lockout = stated(10.5_V);
  c.lockout_release = stated(11.5_V);
  return c;
}

}  // namespace

TEST_CASE("given a source too weak for its load, then lockout and restart take turns, slowly") {
  for (const double delay_s : {5e-3, 50e-3}) {
    Converter c = overloaded();
    c.restart_delay = stated(Second::of_si(delay_s));
    Setup at(c, 12.0, 1.75, 3.0);
    const int before = at.bench.times_said("down5", "turns off: too little input");
    at.bench.go(1.0);
    const int after = at.bench.times_said("down5", "turns off: too little input");
    // A turn is the delay, and at most the soft start and the input capacitor's time constant.
    CHECK(after - before <= 1.0 / delay_s);
    CHECK(after - before >= 1.0 / (delay_s + 2e-3 + 5.0 * 0.3e-3));
    double off_s = -1.0;
    for (const hybrid::Mark& mark : at.bench.marks) {
      if (mark.words.starts_with("turns off")) off_s = mark.time_s;
      if (mark.words == "comes on" && off_s >= 0.0) CHECK(mark.time_s - off_s >= delay_s - 1e-9);
    }
  }
}

TEST_CASE("given a lockout, then its soft start begins anew at zero, whatever its output holds") {
  Converter c = down5();
  c.soft_start = stated(20.0_ms);
  c.blocks_back = true;
  Setup at(c, 12.0, 1e5);
  at.supply_gives(3.0);
  at.bench.go(10e-3);
  REQUIRE(at.bench.times_said("down5", "turns off: too little input") == 1);
  const double held_v = at.out_v();
  CHECK(held_v > 4.5);
  at.supply_gives(12.0);
  at.bench.go(1e-3);
  at.load_is(5.0);
  at.bench.go(9e-3);
  // Half of the soft start is over: the output capacitor has gone into the load meanwhile.
  CHECK(at.out_v() == doctest::Approx(2.5).epsilon(0.05));
}

TEST_CASE("given its lockout, then it draws only its off draw") {
  Setup at(down5(), 4.0, 50.0);
  CHECK(at.in_a() == doctest::Approx(0.2e-3).epsilon(1e-3));
}

TEST_CASE("given a start, then its output rises over its soft start") {
  Converter c = down5();
  c.soft_start = stated(20.0_ms);
  Setup at(c, 4.0, 50.0);
  at.supply_gives(12.0);
  at.bench.go(10e-3);
  CHECK(at.out_v() == doctest::Approx(2.5).epsilon(0.05));
  at.bench.go(50e-3);
  CHECK(at.out_v() == doctest::Approx(5.0).epsilon(1e-3));
}

TEST_CASE("given a weak supply, then its input limit keeps the input from collapsing") {
  Converter c = down5();
  c.input_limit = stated(0.5_A);
  Setup at(c, 12.0, 1.2, 2.0);
  // 0.5 A and the idle draw through 2 ohm: the input stands, the output does not.
  CHECK(at.in_a() == doctest::Approx(0.505).epsilon(1e-3));
  CHECK(at.bench.volts("in") == doctest::Approx(10.99).epsilon(1e-3));
  CHECK(at.out_v() < 4.0);
}

TEST_CASE(
    "given more power than the supply has, then the input collapses to drop-out, and no further") {
  // 12 V behind 3 ohm have 12 W at most; 5 V into 1.75 ohm take 14.3 W and the losses.
  Setup at(down5(), 12.0, 1.75, 3.0);
  CHECK(at.bench.volts("in") > 4.2);
  CHECK(at.bench.volts("in") < 6.0);
  CHECK(at.out_v() < 5.0);
}

TEST_CASE(
    "given an input that is gone, then a step-down feeds it from its output, a blocking one does "
    "not") {
  for (const bool blocks : {false, true}) {
    Converter c = down5();
    c.blocks_back = blocks;
    PartBench bench;
    bench.install(c,
                  {{"in_plus", "in"}, {"in_minus", "0"}, {"out_plus", "out"}, {"out_minus", "0"}});
    bench.net.add(BenchSupply{9.0, 0.1}, {bench.point("out"), network::reference_node}, "pack");
    bench.net.add(Resistance{0.01}, {bench.point("in"), network::reference_node}, "device");
    bench.start();
    bench.go(1.0);
    // 0.7 V of body diode, and some millivolts over 0.1 ohm.
    const double expected = blocks ? 0.0 : 8.3;
    CHECK(bench.volts("in") == doctest::Approx(expected).epsilon(0.01));
  }
}

TEST_CASE(
    "given a step-up that is off, then its input reaches the output through inductor and "
    "rectifier") {
  Converter c = up12();
  c.lockout_release = stated(8.0_V);
  Setup at(c, 7.0, 100.0);
  CHECK(at.bench.times_said("up12", "comes on") == 0);
  CHECK(at.out_v() == doctest::Approx(7.0 - 0.45).epsilon(0.02));
}

TEST_CASE("given a step-up, then it holds its voltage, and with too high an input follows it") {
  Setup at(up12(), 7.2, 24.0);
  CHECK(at.out_v() == doctest::Approx(12.0).epsilon(1e-3));
  at.supply_gives(13.0);
  at.bench.go(0.1);
  CHECK(at.out_v() == doctest::Approx(13.0 - 0.45).epsilon(0.01));
}

TEST_CASE(
    "given a step-up asked for more than its duty reaches, then its output sags, well-posed") {
  Setup at(up12(), 3.2, 8.0);
  CHECK(at.out_v() < 11.5);
  CHECK(at.out_v() > 3.2);
  CHECK(at.in_a() <= 5.0 * 1.01 + 0.005);
}

TEST_CASE("given a step-up-down, then it holds its voltage from above and from below") {
  Converter c = up12();
  c.topology = Topology::StepUpDown;
  c.accepts = {5.0_V, 24.0_V};
  for (const double volts : {6.0, 12.0, 20.0}) {
    Setup at(c, volts, 24.0);
    CHECK(at.out_v() == doctest::Approx(12.0).epsilon(1e-3));
  }
}

TEST_CASE("given hot air and a heavy load, then it shuts down, cools and starts again") {
  Converter c = down5();
  c.body_heat = stated(0.1_J_per_K);
  Setup at(c, 12.0, 2.0, 0.01, 85.0);
  at.bench.go(200.0);
  // 2.5 A lose 1.3 W through 40 K/W: 52 K above 85 degC, past 125 degC.
  CHECK(at.bench.times_said("down5", "turns off: too hot") >= 2);
  CHECK(at.bench.times_said("down5", "comes on") >= 2);
  CHECK(at.bench.reads("down5", "body temperature") < 273.15 + 125.1);
}

TEST_CASE("given a reversed input, then body diodes conduct") {
  Setup at(down5(), -3.0, 50.0, 1.0);
  CHECK(at.bench.volts("in") == doctest::Approx(-1.48).epsilon(0.02));
}

TEST_CASE(
    "a tiny step-down giving 6.0 V 71 mA from 14.4 V takes 45 mA (common practice, no source)") {
  Converter c;
  take_from_shelf("converter", "tiny-step-down", c);
  c.name = "tiny";
  c.output = stated(6.0_V);
  const Losses of_class = c.losses().losses;
  {
    Setup at(c, 14.4, 6.0 / 0.071);
    CHECK(std::abs(at.in_a() - 45e-3) < 8e-3);
  }
  auto& reading = c.measured.emplace_back();
  reading.input = stated(14.4_V);
  reading.input_current = stated(45.0_mA);
  reading.output_current = stated(71.0_mA);
  CHECK(c.losses().moved_most == "idle");
  CHECK(c.losses().losses.square.si() == doctest::Approx(of_class.square.si()).epsilon(1e-3));
  CHECK(c.losses().losses.idle.si() > 1.1 * of_class.idle.si());
  Setup at(c, 14.4, 6.0 / 0.071);
  // The divider's 0.3 mA and 0.7 mV of output resistance stand between the reading and the law.
  CHECK(at.in_a() == doctest::Approx(45e-3).epsilon(5e-3));
  CHECK(0.071 * 6.0 / (14.4 * at.in_a()) == doctest::Approx(0.66).epsilon(0.01));
}

TEST_CASE("a converter says what is wrong between its values") {
  Converter c = down5();
  CHECK(c.contradictions().empty());
  c.limit = stated(1.0_A);
  c.lockout = stated(6.0_V);
  c.lockout_release = stated(5.0_V);
  c.restart_at = stated(130.0_degC);
  auto& reading = c.measured.emplace_back();
  reading.input = stated(12.0_V);
  reading.output_current = stated(1.0_A);
  reading.input_current = stated(0.3_A);
  CHECK(c.contradictions() ==
        std::vector<std::string>{"lockout: must lie below lockout_release",
                                 "restart_at: must lie below shutdown_at",
                                 "measured: a reading gives out more power than it takes in",
                                 "limit: lies below the rated current"});
}

TEST_CASE("no adapter, converter or charger on the shelf contradicts itself") {
  const shelf::Shelf& stock = shelf::built_in_shelf();
  CHECK(stock.names("converter").size() >= 6);
  for (const std::string& row : stock.names("adapter")) {
    part::Adapter adapter;
    take_from_shelf("adapter", row, adapter);
  }
  for (const std::string& row : stock.names("converter")) {
    Converter converter;
    take_from_shelf("converter", row, converter);
  }
  for (const std::string& row : stock.names("charger")) {
    part::Charger charger;
    take_from_shelf("charger", row, charger);
  }
}
