// What the stepper does where a mode ends: order, jumps, chatter, starts that cannot be solved.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "convergence/small_system.hpp"
#include "hybrid/stepper.hpp"
#include "reference/hand_built.hpp"
#include "reference/side_by_side.hpp"

namespace {

using namespace tideover;
using tests::SmallSystem;

constexpr double closed = -1e30;

struct Recorder final : hybrid::Observer {
  hybrid::Marks marks;
  std::vector<double> last_y;
  void reacted(double, std::span<const double> y, const hybrid::Marks& news) override {
    marks.insert(marks.end(), news.begin(), news.end());
    last_y.assign(y.begin(), y.end());
  }
};

}  // namespace

TEST_CASE("a guard true at the start acts at once, before any step") {
  const double rate = 1.0;
  SmallSystem system = tests::ramp(&rate);
  bool done = false;
  system.rules.push_back({[&](double, std::span<const double> y) { return done ? closed : y[0]; },
                          [&](double, std::span<double>) {
                            done = true;
                            return hybrid::Reacted{};
                          }});
  hybrid::Stepper stepper(system, {}, 5.0, {2.0});
  Recorder recorder;
  CHECK(stepper.advance(6.0, recorder).ended == hybrid::Ended::AtTime);
  REQUIRE(recorder.marks.size() == 1);
  CHECK(recorder.marks[0].time_s == 5.0);
}

TEST_CASE("two guards that undo each other at one instant: the run ends Restless, naming one") {
  const double rate = 1.0;
  SmallSystem system = tests::ramp(&rate);
  int side = 0;
  for (const int from : {0, 1}) {
    system.rules.push_back({[&side, from](double, std::span<const double> y) {
                              return side == from ? y[0] - 1.0 : closed;
                            },
                            [&side, from](double, std::span<double>) {
                              side = 1 - from;
                              return hybrid::Reacted{};
                            }});
  }
  hybrid::Stepper stepper(system, {}, 0.0, {0.0});
  Recorder recorder;
  const auto outcome = stepper.advance(10.0, recorder);
  CHECK(outcome.ended == hybrid::Ended::Restless);
  CHECK(outcome.time_s == doctest::Approx(1.0).epsilon(1e-6));
  CHECK(outcome.why.substr(0, 4) == "rule");
}

TEST_CASE(
    "a switch without hysteresis on something that moves: the run ends Restless, not in a "
    "hang") {
  double rate = 1.0;
  SmallSystem system = tests::ramp(&rate);
  system.rules.push_back(
      {[&](double, std::span<const double> y) { return rate > 0.0 ? y[0] - 1.0 : closed; },
       [&](double, std::span<double>) {
         rate = -1.0;
         return hybrid::Reacted{};
       }});
  system.rules.push_back(
      {[&](double, std::span<const double> y) { return rate < 0.0 ? 1.0 - y[0] : closed; },
       [&](double, std::span<double>) {
         rate = 1.0;
         return hybrid::Reacted{};
       }});
  hybrid::Stepper stepper(system, {}, 0.0, {0.0});
  Recorder recorder;
  const auto outcome = stepper.advance(10.0, recorder);
  CHECK(outcome.ended == hybrid::Ended::Restless);
  CHECK(outcome.time_s >= 1.0);
  CHECK(outcome.time_s < 1.1);
  CHECK(outcome.why.substr(0, 4) == "rule");
}

TEST_CASE("a quick cycle that does rest between its events is no chatter") {
  double rate = 1.0;
  SmallSystem system = tests::ramp(&rate);
  const double half_band = 5e-5;  // ten thousand turns a second
  system.rules.push_back({[&](double, std::span<const double> y) {
                            return rate > 0 ? y[0] - 1.0 - half_band : closed;
                          },
                          [&](double, std::span<double>) {
                            rate = -1.0;
                            return hybrid::Reacted{};
                          }});
  system.rules.push_back({[&](double, std::span<const double> y) {
                            return rate < 0 ? 1.0 - half_band - y[0] : closed;
                          },
                          [&](double, std::span<double>) {
                            rate = 1.0;
                            return hybrid::Reacted{};
                          }});
  hybrid::Stepper stepper(system, {}, 0.0, {0.0});
  Recorder recorder;
  CHECK(stepper.advance(2.0, recorder).ended == hybrid::Ended::AtTime);
  CHECK(recorder.marks.size() == doctest::Approx(10000).epsilon(0.01));
}

TEST_CASE("an algebraic unknown jumps with the mode and is solved anew before anybody looks") {
  double gain = 2.0;
  SmallSystem system(
      {char{1}, char{0}},
      [&](std::span<const double> y, std::span<double> f) {
        f[0] = 1.0;
        f[1] = gain * y[0] - y[1];
      },
      [&](std::span<const double>, std::span<double> j) {
        j[0] = j[1] = 0.0;
        j[2] = gain;
        j[3] = -1.0;
      });
  // The jump of the first rule makes the second hold at the same instant.
  bool jumped = false;
  bool followed = false;
  system.rules.push_back(
      {[&](double, std::span<const double> y) { return followed ? closed : y[1] - 100.0; },
       [&](double, std::span<double>) {
         followed = true;
         return hybrid::Reacted{};
       }});
  system.rules.push_back(
      {[&](double, std::span<const double> y) { return jumped ? closed : y[1] - 3.0; },
       [&](double, std::span<double>) {
         jumped = true;
         gain = 200.0;
         return hybrid::Reacted{};
       }});
  hybrid::Stepper stepper(system, {}, 0.0, {0.0, 7.0});
  CHECK(stepper.y()[1] == doctest::Approx(0.0));
  Recorder recorder;
  CHECK(stepper.advance(2.0, recorder).ended == hybrid::Ended::AtTime);
  REQUIRE(recorder.marks.size() == 2);
  CHECK(recorder.marks[0].who == "rule 1");
  CHECK(recorder.marks[1].who == "rule 0");
  CHECK(recorder.marks[0].time_s == doctest::Approx(1.5).epsilon(1e-6));
  CHECK(recorder.marks[0].time_s == recorder.marks[1].time_s);
  CHECK(recorder.last_y[1] == doctest::Approx(300.0).epsilon(1e-6));
  CHECK(stepper.y()[1] == doctest::Approx(400.0).epsilon(1e-9));
}

TEST_CASE(
    "a start whose algebraic line is singular ends Stuck and says so, a poor guess does not") {
  const auto system_of = [] {
    return SmallSystem(
        {char{0}, char{1}},
        [](std::span<const double> y, std::span<double> f) {
          f[0] = 4.0 - y[0] * y[0];
          f[1] = y[0];
        },
        [](std::span<const double> y, std::span<double> j) {
          j[0] = -2.0 * y[0];
          j[1] = j[3] = 0.0;
          j[2] = 1.0;
        });
  };
  Recorder recorder;
  SmallSystem singular = system_of();
  hybrid::Stepper stuck(singular, {}, 0.0, {0.0, 0.0});
  const auto outcome = stuck.advance(1.0, recorder);
  CHECK(outcome.ended == hybrid::Ended::Stuck);
  CHECK(!outcome.why.empty());
  SmallSystem solvable = system_of();
  hybrid::Stepper stepper(solvable, {}, 0.0, {1e-3, 0.0});
  CHECK(stepper.advance(1.0, recorder).ended == hybrid::Ended::AtTime);
  CHECK(stepper.y()[1] == doctest::Approx(2.0));
}

TEST_CASE("a law that yields no number ends the run Stuck, and no such number is handed on") {
  // y' = -sqrt(y - 1) - 1 has no real continuation below 1.
  SmallSystem system(
      {char{1}},
      [](std::span<const double> y, std::span<double> f) { f[0] = -std::sqrt(y[0] - 1.0) - 1.0; },
      [](std::span<const double> y, std::span<double> j) { j[0] = -0.5 / std::sqrt(y[0] - 1.0); });
  hybrid::Stepper stepper(system, {}, 0.0, {2.0});
  Recorder recorder;
  CHECK(stepper.advance(5.0, recorder).ended == hybrid::Ended::Stuck);
  CHECK(std::isfinite(stepper.y()[0]));
  // One bad line among good ones, not the last.
  SmallSystem mixed(
      {char{1}, char{1}},
      [](std::span<const double> y, std::span<double> f) {
        f[0] = y[1] > 0.5 ? std::nan("") : 1.0;
        f[1] = 1.0;
      },
      [](std::span<const double>, std::span<double> j) { j[0] = j[1] = j[2] = j[3] = 0.0; });
  hybrid::Stepper other(mixed, {}, 0.0, {0.0, 0.0});
  CHECK(other.advance(1.0, recorder).ended == hybrid::Ended::Stuck);
  CHECK(other.time_s() == doctest::Approx(0.5).epsilon(1e-3));
  CHECK(std::isfinite(other.y()[0]));
}

TEST_CASE("the clock comes before guards at one instant, guards in the order of their index") {
  double rate = 1.0;
  SmallSystem system = tests::ramp(&rate);
  std::vector<bool> done(3, false);
  for (std::size_t g = 0; g < 3; ++g) {
    system.rules.push_back({[&done, g](double time_s, std::span<const double>) {
                              return done[g] ? closed : time_s - 1.0;
                            },
                            [&done, g](double, std::span<double>) {
                              done[g] = true;
                              return hybrid::Reacted{};
                            }});
  }
  system.wake_s = 1.0 + 1e-12;
  system.on_wake = [&](double, std::span<double>) {
    system.wake_s = 1e300;
    return hybrid::Reacted{};
  };
  hybrid::Stepper stepper(system, {}, 0.0, {0.0});
  Recorder recorder;
  CHECK(stepper.advance(2.0, recorder).ended == hybrid::Ended::AtTime);
  REQUIRE(recorder.marks.size() == 4);
  CHECK(recorder.marks[0].who == "clock");
  for (std::size_t g = 0; g < 3; ++g)
    CHECK(recorder.marks[g + 1].who == "rule " + std::to_string(g));
}

TEST_CASE("independent guards give the same run in whatever order they are declared") {
  std::vector<double> levels{0.3, 0.30001, 0.7, 0.5};
  std::sort(levels.begin(), levels.end());
  std::vector<double> first_times;
  double first_end = 0.0;
  do {
    double rate = 1.0;
    SmallSystem system = tests::ramp(&rate);
    std::vector<bool> done(levels.size(), false);
    for (std::size_t g = 0; g < levels.size(); ++g) {
      system.rules.push_back({[&, g](double, std::span<const double> y) {
                                return done[g] ? closed : y[0] - levels[g];
                              },
                              [&, g](double, std::span<double>) {
                                done[g] = true;
                                rate *= 1.0 + levels[g];
                                return hybrid::Reacted{};
                              }});
    }
    hybrid::Stepper stepper(system, {}, 0.0, {0.0});
    Recorder recorder;
    CHECK(stepper.advance(1.0, recorder).ended == hybrid::Ended::AtTime);
    std::vector<double> times;
    for (const auto& mark : recorder.marks) times.push_back(mark.time_s);
    if (first_times.empty()) {
      first_times = times;
      first_end = stepper.y()[0];
    }
    CHECK(times == first_times);
    CHECK(stepper.y()[0] == first_end);
  } while (std::next_permutation(levels.begin(), levels.end()));
}

TEST_CASE("a run cut in two, going on from a copy of network and unknowns, ends as the whole one") {
  for (reference::HandBuilt& built : reference::all_hand_built()) {
    CAPTURE(built.name);
    const hybrid::Settings settings{.relative_tolerance = 1e-9};
    const auto whole = reference::run_by_stepper(built.net, built.until_s, settings);
    network::Network first_half = built.net;
    hybrid::Stepper first(first_half, settings, 0.0, built.net.start());
    hybrid::Observer nobody;
    const double cut_s = 0.41 * built.until_s;
    CHECK(first.advance(cut_s, nobody).ended == hybrid::Ended::AtTime);
    network::Network second_half = first_half;
    hybrid::Stepper second(second_half, settings, cut_s, {first.y().begin(), first.y().end()});
    CHECK(second.advance(built.until_s, nobody).ended == hybrid::Ended::AtTime);
    const auto scale = built.net.scale();
    for (std::size_t k = 0; k < whole.y.size(); ++k) {
      CAPTURE(built.net.unknown_names()[k]);
      // Events are bracketed to 1e-8 s each, which a hundred cycles add up to 1e-6 of a period.
      CHECK(std::abs(second.y()[k] - whole.y[k]) < 2e-6 * std::max(scale[k], std::abs(whole.y[k])));
    }
    // The first stepper's own continuation is the same run, untouched by the copy.
    CHECK(first.advance(built.until_s, nobody).ended == hybrid::Ended::AtTime);
    for (std::size_t k = 0; k < whole.y.size(); ++k) {
      CHECK(std::abs(first.y()[k] - whole.y[k]) < 2e-6 * std::max(scale[k], std::abs(whole.y[k])));
    }
  }
}

TEST_CASE("the same network and settings give the same run to the last bit") {
  for (const reference::HandBuilt& built : reference::all_hand_built()) {
    CAPTURE(built.name);
    const auto one = reference::run_by_stepper(built.net, built.until_s, {});
    const auto other = reference::run_by_stepper(built.net, built.until_s, {});
    CHECK(one.y == other.y);
    CHECK(one.statistics.rate_evaluations == other.statistics.rate_evaluations);
  }
}
