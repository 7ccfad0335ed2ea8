#include "part/fuse/fuse.hpp"

#include <cmath>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "part/load/load_draw.hpp"
#include "support/closeness.hpp"
#include "support/part_bench.hpp"
#include "support/source_law.hpp"

namespace {

using namespace tideover;
using namespace part;
using namespace quantity;
using namespace quantity::literals;
using tests::relative_error;
using tests::stated;

Fuse time_lag(double rated_a) {
  Fuse fuse;
  fuse.name = "f1";
  fuse.rated = stated(Ampere::of_si(rated_a));
  return fuse;
}

/// A stiff 12 V supply, the fuse, and a load of constant current behind it.
struct FusedLoad {
  explicit FusedLoad(const Fuse& fuse, double current_a, double air_c = 23.0) : bench(air_c) {
    bench.net.add(tests::Source{}, {bench.point("rail"), network::reference_node}, "supply");
    bench.install(fuse, {{"a", "rail"}, {"b", "load"}});
    load = bench.net.add(LoadDraw{.current_a = current_a},
                         {bench.point("load"), network::reference_node}, "load");
    bench.start();
  }
  void draw(double current_a) {
    bench.net.law(load).current_a = current_a;
    bench.stimulate({.what = network::Stimulus::What::SwitchTo});
  }
  tests::PartBench bench;
  network::Handle<LoadDraw> load;
};

constexpr std::array styles{
    FuseStyle::Quick, FuseStyle::TimeLag,     FuseStyle::TimeLagHighBreaking,
    FuseStyle::Ul,    FuseStyle::UlTimeDelay, FuseStyle::Blade};

}  // namespace

TEST_CASE("given a constant overload, when it lasts, then the fuse blows at its opening time") {
  for (const FuseLaw law : {FuseLaw::Earliest, FuseLaw::Middle, FuseLaw::Latest}) {
    for (const double multiple : {2.2, 2.75, 4.0, 10.0, 40.0}) {
      Fuse fuse = time_lag(2.0);
      fuse.law = law;
      const auto expected = fuse.opening_time(2.0_A * multiple, law);
      REQUIRE(expected);
      FusedLoad build(fuse, 2.0 * multiple);
      build.bench.go(1.2 * expected->si());
      CHECK(relative_error(build.bench.said_s("f1", "blows"), expected->si()) < 1e-3);
      CHECK(std::abs(build.bench.reads("f1", "current")) < 1e-6);
    }
  }
}

TEST_CASE("given rated current for hours, then the fuse stays whole") {
  FusedLoad build(time_lag(2.0), 2.0);
  build.bench.go(5 * 3600.0);
  CHECK(build.bench.times_said("f1", "blows") == 0);
  CHECK(build.bench.reads("f1", "heat") < 0.6);
}

TEST_CASE("given any style and current, then more current never opens later, in any law") {
  CHECK(rc::check("monotone", [] {
    Fuse fuse = time_lag(*rc::gen::elementOf(std::vector<double>{1.0, 2.0, 3.15, 5.0}));
    fuse.style = *rc::gen::elementOf(styles);
    const auto law = static_cast<FuseLaw>(*rc::gen::inRange(0, 3));
    const FuseCurve curve = fuse.curve(law);
    const double multiple = std::exp(1e-6 * *rc::gen::inRange(0, 5000000));
    const auto here = curve.opening_time_s(multiple);
    const auto above = curve.opening_time_s(1.02 * multiple);
    if (here) {
      RC_ASSERT(above.has_value());
      RC_ASSERT(*above <= *here);
    }
    const auto earliest = fuse.curve(FuseLaw::Earliest).opening_time_s(multiple);
    const auto latest = fuse.curve(FuseLaw::Latest).opening_time_s(multiple);
    if (latest) {
      RC_ASSERT(earliest.has_value());
      RC_ASSERT(*earliest <= *latest);
    }
  }));
}

TEST_CASE("given pulses of a quarter of the melting I2t every ten seconds, then it forgets each") {
  Fuse fuse = time_lag(2.0);
  FusedLoad build(fuse, 0.0);
  const double pulse_a = 20.0;
  const double pulse_s = 0.25 * fuse.melting_integral().si() / (pulse_a * pulse_a);
  for (int pulse = 0; pulse < 20; ++pulse) {
    build.draw(pulse_a);
    build.bench.go(pulse_s);
    build.draw(0.0);
    build.bench.go(10.0 - pulse_s);
  }
  CHECK(build.bench.times_said("f1", "blows") == 0);
  // The same pulses without a pause between them do blow it.
  build.draw(pulse_a);
  build.bench.go(4.5 * pulse_s);
  CHECK(build.bench.times_said("f1", "blows") == 1);
}

TEST_CASE("given warm air, then a fuse opens sooner") {
  Fuse fuse = time_lag(2.0);
  fuse.derating = stated(PerKelvin::of_si(0.005));
  const auto cool = fuse.opening_time(6_A, FuseLaw::Middle);
  const auto warm = fuse.opening_time(6_A, FuseLaw::Middle, 60_degC);
  REQUIRE(cool);
  REQUIRE(warm);
  CHECK(*warm < *cool);
  FusedLoad build(fuse, 6.0, 60.0);
  build.bench.go(1.2 * warm->si());
  CHECK(relative_error(build.bench.said_s("f1", "blows"), warm->si()) < 1e-3);
}

TEST_CASE("given more current than it can break, when it blows, then it says so") {
  Fuse fuse = time_lag(2.0);
  fuse.breaking_dc = stated(35_A);
  FusedLoad build(fuse, 60.0);
  build.bench.go(1.0);
  CHECK(build.bench.times_said("f1", "blows on more current than it can break") == 1);
}

TEST_CASE("given a fuse blown from the start, then nothing flows and nothing happens") {
  Fuse fuse = time_lag(2.0);
  fuse.blown = true;
  FusedLoad build(fuse, 1.0);
  build.bench.go(100.0);
  CHECK(std::abs(build.bench.reads("f1", "current")) < 1e-6);
  CHECK(build.bench.marks.empty());
}

TEST_CASE("given values that contradict each other, then each is named") {
  const auto says = [](const Fuse& fuse, std::string_view beginning) {
    const auto all = fuse.contradictions();
    return all.size() == 1 && all[0].starts_with(beginning);
  };
  CHECK(says(time_lag(20.0), "rated: 20 A has no gates in style \"time-lag\""));
  Fuse stray = time_lag(2.0);
  stray.gates.emplace_back();
  CHECK(says(stray, "gates: count only with style \"own\""));
  Fuse own = time_lag(2.0);
  own.style = FuseStyle::Own;
  CHECK(says(own, "gates: state one without at_most"));
  const auto add = [&](double multiple, double at_least_s, double at_most_s) {
    FuseGate& gate = own.gates.emplace_back();
    gate.multiple = stated(Ratio::of_si(multiple));
    gate.at_least = stated(Second::of_si(at_least_s));
    gate.at_most = stated(Second::of_si(at_most_s));
  };
  add(1.5, 3600, 0);
  add(2.0, 0, 100);
  add(4.0, 0, 10);
  CHECK(says(own, "gates: at least one that opens needs an at_least"));
  own.gates.back().at_least = stated(20_s);
  CHECK(says(own, "gates: at_least lies below at_most"));
  own.gates.back().at_least = stated(1_s);
  CHECK(own.contradictions().empty());
  Fuse quick_melt = time_lag(2.0);
  quick_melt.melting = stated(1_A2s);
  CHECK(says(quick_melt,
             "melting: it would open the fuse at 10 times its rated current in 0.0025 s"));
}
