// Bands of a build whose run time is capacity over current, so that every answer is known.
#include "question/bands.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "question/band_phrases.hpp"
#include "support/buoy.hpp"

using namespace tideover;
using question::Band;
using question::BandKey;
using question::Bands;
using question::BandsEnded;
using question::BandSettings;
using question::NeedKey;
using Sort = BandKey::Sort;
using test::Buoy;

namespace {

constexpr BandKey carried{Sort::Carried, 0};
constexpr BandKey carried_worn{Sort::Carried, 1};

Bands ask(const build::Build& build, const BandSettings& settings) {
  base::NoProgress nobody;
  return question::bands(build, settings, nobody);
}

Bands ask(const Buoy& values, const BandSettings& settings) {
  return ask(test::buoy(values), settings);
}

/// Stops after so many reports.
class Impatient final : public base::Progress {
 public:
  explicit Impatient(int reports) : left_(reports) {}
  void report(double, std::string_view) override { --left_; }
  [[nodiscard]] bool stop_asked() const override { return left_ <= 0; }

 private:
  int left_;
};

/// Quantile of c / i with c and i rectangular between their ends, from an even grid.
double ratio_quantile(double c_low, double c_high, double i_low, double i_high, double p) {
  constexpr int steps = 600;
  std::vector<double> ratios;
  for (int a = 0; a < steps; ++a) {
    for (int b = 0; b < steps; ++b) {
      ratios.push_back((c_low + (c_high - c_low) * (a + 0.5) / steps) /
                       (i_low + (i_high - i_low) * (b + 0.5) / steps));
    }
  }
  const auto at = ratios.begin() + static_cast<long>(p * static_cast<double>(ratios.size()));
  std::nth_element(ratios.begin(), at, ratios.end());
  return *at;
}

double width(const Band& band) { return band.p95.value_si - band.p5.value_si; }

}  // namespace

TEST_CASE("run time is capacity over current: its band is that of the ratio") {
  const Bands found = ask(Buoy{}, {.draws = 512, .width_draws = 0});
  CHECK(found.ended == BandsEnded::AsAsked);
  REQUIRE(found.inputs.values.size() == 2);
  CHECK(found.inputs.values[0].path == "lamp.draws_current");
  CHECK(found.inputs.values[1].path == "pack.cell.capacity");
  const Bands nominal = ask(Buoy{.capacity = "'4 Ah'", .draws = "'1 A'"}, {});
  const double nominal_s = nominal.tally.band(carried)->p50.value_si;
  CHECK(nominal_s == doctest::Approx(4.0 * 3600.0).epsilon(0.03));

  const auto band = found.tally.band(carried);
  REQUIRE(band);
  CHECK(band->draws == 512);
  for (const auto& [quantile, p] :
       {std::pair{band->p5, 0.05}, {band->p50, 0.5}, {band->p95, 0.95}}) {
    const double expected_s = nominal_s * ratio_quantile(0.9, 1.1, 0.8, 1.2, p);
    // The interval that is stated holds the true value, and is no wider than 4 % of it.
    CHECK(quantile.low_si <= expected_s * 1.001);
    CHECK(quantile.high_si >= expected_s * 0.999);
    CHECK(quantile.high_si - quantile.low_si < 0.08 * expected_s);
    CHECK(quantile.value_si == doctest::Approx(expected_s).epsilon(0.015));
  }
  // The tenth of a percent is what little the resistances do.
  CHECK(band->lowest_si >= nominal_s * 0.9 / 1.2 * 0.999);
  CHECK(band->highest_si <= nominal_s * 1.1 / 0.8 * 1.001);
  // Cells of four fifths of the capacity.
  const auto worn = found.tally.band(carried_worn);
  REQUIRE(worn);
  CHECK(worn->p50.value_si == doctest::Approx(0.8 * band->p50.value_si).epsilon(0.01));
}

TEST_CASE("how often a need is met is the share of draws that meet it") {
  // T > 3.5 h where I < C / 3.5 h: a known share of the rectangle of both.
  const Bands found = ask(Buoy{}, {.draws = 1024, .width_draws = 0});
  const Bands nominal = ask(Buoy{.capacity = "'4 Ah'", .draws = "'1 A'"}, {});
  const double whole_h = nominal.tally.band(carried)->p50.value_si / 3600.0;
  double expected_share = 0.0;
  constexpr int steps = 2000;
  for (int k = 0; k < steps; ++k) {
    const double capacity = 0.9 + 0.2 * (k + 0.5) / steps;
    expected_share += std::clamp((capacity * whole_h / 3.5 - 0.8) / 0.4, 0.0, 1.0) / steps;
  }
  const auto chance = found.tally.chance({NeedKey::Need::Outlast, 0});
  REQUIRE(chance);
  CHECK(chance->low <= expected_share);
  CHECK(chance->high >= expected_share);
  CHECK(chance->high - chance->low < 0.05);
  const auto worn = found.tally.chance({NeedKey::Need::Outlast, 1});
  REQUIRE(worn);
  CHECK(worn->estimate < chance->estimate);
}

TEST_CASE("the answer is the same, bit for bit, for any number of threads") {
  const Bands one = ask(Buoy{}, {.draws = 96, .width_draws = 40, .threads = 1});
  for (const unsigned threads : {2U, 3U}) {
    const Bands more = ask(Buoy{}, {.draws = 96, .width_draws = 40, .threads = threads});
    CHECK(more.tally == one.tally);
    REQUIRE(more.widths.bands.size() == one.widths.bands.size());
    CHECK(more.widths.bands[0].shares[0].total == one.widths.bands[0].shares[0].total);
  }
  const Bands other = ask(Buoy{}, {.draws = 96, .seed = 2, .width_draws = 0});
  CHECK_FALSE(other.tally == one.tally);
}

TEST_CASE("shares of the draws add up to exactly what all at once gives") {
  const Bands whole = ask(Buoy{}, {.draws = 50, .width_draws = 0});
  question::BandTally tally;
  for (const std::uint64_t share : {3U, 1U, 2U}) {
    tally.add(ask(Buoy{}, {.draws = 50, .share = share, .of_shares = 3}).tally);
  }
  CHECK(tally == whole.tally);
}

TEST_CASE("draws go on until the bands stand still, and not to the most there may be") {
  const Bands found = ask(Buoy{}, {.width_draws = 0});
  CHECK(found.ended == BandsEnded::StoodStill);
  const std::uint64_t draws = found.tally.counts().draws;
  CHECK(draws >= 64);
  CHECK(draws < question::most_draws);
  // As wide as with all of them, to what counts as standing still and what P5 may be off by itself.
  const auto many = ask(Buoy{}, {.draws = 1024, .width_draws = 0}).tally.band(carried);
  const auto band = found.tally.band(carried);
  CHECK(std::abs(band->p5.value_si - many->p5.value_si) < 0.03 * many->p50.value_si);
  CHECK(std::abs(band->p95.value_si - many->p95.value_si) < 0.03 * many->p50.value_si);
}

TEST_CASE("the width comes from the current: the advice is to measure it, and measuring helps") {
  const Bands before = ask(Buoy{}, {.draws = 256});
  REQUIRE(before.widths.advice);
  const auto& advice = *before.widths.advice;
  CHECK(before.widths.groups[advice.group].words == "lamp.draws_current");
  CHECK_FALSE(advice.is_measured);
  // Squares of the relative tolerances: 1 to 4, but that one over I is curved.
  const auto& shares = before.widths.bands.front().shares[advice.group];
  CHECK(std::abs(shares.first - 0.8) < 0.03 + 3.0 * shares.first_error);
  CHECK(shares.first_error < 0.1);

  const Buoy measured{.draws = "{ value = '1 A +/- 0.5 %', origin = 'measured' }"};
  const auto after = ask(measured, {.draws = 256, .width_draws = 0}).tally.band(advice.band);
  const auto earlier = before.tally.band(advice.band);
  REQUIRE(after);
  const double foretold_s = advice.to_p95_si - advice.to_p5_si;
  CHECK(width(*after) < 0.6 * width(*earlier));
  // By the rule of the squares, for a rectangle that is left; P5 to P95 of a rectangle is 0.9 of
  // its width and of a sum of two rather less.
  CHECK(width(*after) == doctest::Approx(foretold_s).epsilon(0.2));
}

TEST_CASE("shares of the width: by origin, and what nobody measured stands apart") {
  const Bands found =
      ask(Buoy{.capacity = "{ value = '4 Ah +/- 10 %', origin = 'measured' }"}, {.draws = 256});
  const auto& groups = found.widths.groups;
  const auto& shares = found.widths.bands.front().shares;
  const auto share_of = [&](const std::string& words) {
    const auto at = std::ranges::find(groups, words, &question::WidthGroup::words);
    REQUIRE(at != groups.end());
    return shares[static_cast<std::size_t>(at - groups.begin())].total;
  };
  CHECK(share_of("assumed") == doctest::Approx(share_of("lamp.draws_current")));
  CHECK(share_of("measured") == doctest::Approx(share_of("pack.cell.capacity")));
  CHECK(share_of("assumed") + share_of("measured") == doctest::Approx(1.0).epsilon(0.15));
}

TEST_CASE("values read with one meter are off together") {
  const std::string one_meter =
      "input_capacitance = { value = '100 uF +/- 10 %', origin = 'measured', meter = 'red' }\n";
  const Bands found =
      ask(Buoy{.capacity = "{ value = '4 Ah +/- 10 %', origin = 'measured', meter = 'red' }",
               .draws = "{ value = '1 A +/- 20 %', origin = 'measured', meter = 'red' }",
               .more_of_lamp = one_meter + "rides = { value = '10 ms +/- 10 %', meter = 'red' }\n" +
                               "boot = { value = '1 s +/- 10 %', meter = 'red' }\n"},
          {.draws = 8, .width_draws = 0});
  REQUIRE(found.inputs.values.size() == 5);
  // Capacity, current, farads, and both times together.
  CHECK(found.inputs.count() == 4);
  CHECK(found.inputs.values[0].input != found.inputs.values[1].input);
  const auto input_of = [&](const std::string& path) {
    return std::ranges::find(found.inputs.values, path, &question::DrawnValue::path)->input;
  };
  CHECK(input_of("lamp.rides") == input_of("lamp.boot"));
  CHECK(found.inputs.names[input_of("lamp.boot")] == "every time read with red");
}

TEST_CASE("values that no part can have together are left out and counted") {
  // An adapter that gives less at most than it is rated for: a quarter of what is drawn.
  const Bands found =
      ask(Buoy{.more_of_shore = "limit = '1.1 A +/- 20 %'"}, {.draws = 64, .width_draws = 0});
  const auto& counts = found.tally.counts();
  CHECK(counts.draws == 64);
  // 0.1 of the 0.44 A that it is wide lies below: 15 of 64, evenly spread to one or two.
  CHECK(counts.contradicting >= 13);
  CHECK(counts.contradicting <= 17);
  CHECK(found.tally.band(carried)->draws == 64 - counts.contradicting);
  CHECK(question::draws_words(found).find("cannot be together were left out") != std::string::npos);
}

TEST_CASE("a build without tolerances is run once and says so") {
  const Bands found = ask(Buoy{.capacity = "'4 Ah'", .draws = "'1 A'"}, {});
  CHECK(found.tally.counts().draws == 1);
  CHECK(found.widths.bands.empty());
  CHECK(question::draws_words(found).starts_with("No value of this build has a tolerance"));
  const auto band = found.tally.band(carried);
  REQUIRE(band);
  CHECK(band->lowest_si == band->highest_si);
}

TEST_CASE("one draw is a band of no width that promises next to nothing") {
  const Bands found = ask(Buoy{}, {.draws = 1});
  CHECK(found.tally.counts().draws == 1);
  CHECK_FALSE(found.widths.advice);
  const auto chance = found.tally.chance({NeedKey::Need::All, 0});
  REQUIRE(chance);
  CHECK(chance->high - chance->low > 0.9);
}

TEST_CASE("stopped in the middle, what is there is valid and says how many") {
  Impatient user(40);
  const Bands found = question::bands(test::buoy(), {.draws = 100'000, .threads = 2}, user);
  CHECK(found.is_partial());
  const std::uint64_t draws = found.tally.counts().draws;
  CHECK(draws < 100);
  CHECK(found.widths.bands.empty());
  // The draws are the first ones, as if no more had been asked for.
  const Bands as_many = ask(Buoy{}, {.draws = std::max<std::uint64_t>(draws, 1), .width_draws = 0});
  if (draws > 0) CHECK(found.tally == as_many.tally);
}
