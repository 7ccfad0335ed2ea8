// Works spread over threads: the results come in order, whatever the threads did.
#include "run/batch.hpp"

#include <stdexcept>

#include <doctest/doctest.h>

#include "run/run.hpp"
#include "support/hut.hpp"

using namespace tideover;

namespace {

/// Stops after so many reports.
class Impatient final : public base::Progress {
 public:
  explicit Impatient(int reports) : left_(reports) {}
  void report(double, std::string_view) override { --left_; }
  [[nodiscard]] bool stop_asked() const override { return left_ <= 0; }

 private:
  int left_;
};

std::vector<double> squares(unsigned threads, std::size_t count) {
  const build::Build hut = test::hut();
  run::Batch<double> batch(hut, count,
                           [](build::Workpiece&, std::size_t number, base::Progress&) {
                             if (number % 3 == 0)
                               std::this_thread::sleep_for(std::chrono::microseconds(300));
                             return static_cast<double>(number * number);
                           },
                           {.threads = threads});
  std::vector<double> results;
  base::NoProgress nobody;
  const std::size_t taken = batch.run(
      [&](std::size_t number, double&& result) {
        CHECK(number == results.size());
        results.push_back(result);
        return true;
      },
      nobody);
  CHECK(taken == count);
  return results;
}

}  // namespace

TEST_CASE("results come in order and are the same for any number of threads") {
  const std::vector<double> one = squares(1, 200);
  REQUIRE(one.size() == 200);
  CHECK(one[199] == 199.0 * 199.0);
  CHECK(squares(2, 200) == one);
  CHECK(squares(7, 200) == one);
  CHECK(squares(3, 0).empty());
}

TEST_CASE("a batch ends where enough is known, and where the user says stop") {
  const build::Build hut = test::hut();
  const auto work = [](build::Workpiece&, std::size_t number, base::Progress&) { return number; };
  base::NoProgress nobody;
  run::Batch<std::size_t> enough(hut, 1000, work, {.threads = 2});
  CHECK(enough.run([](std::size_t number, std::size_t&&) { return number < 9; }, nobody) == 10);
  run::Batch<std::size_t> stopped(hut, 1000000, work, {.threads = 2});
  Impatient user(20);
  CHECK(stopped.run([](std::size_t, std::size_t&&) { return true; }, user) <= 20);
}

TEST_CASE("a fault of a work ends the batch and is thrown where it was asked for") {
  const build::Build hut = test::hut();
  run::Batch<int> batch(hut, 100,
                        [](build::Workpiece&, std::size_t number, base::Progress&) -> int {
                          if (number == 20) throw std::runtime_error("broken");
                          return 1;
                        },
                        {.threads = 3});
  base::NoProgress nobody;
  CHECK_THROWS_AS(batch.run([](std::size_t, int&&) { return true; }, nobody), std::runtime_error);
}

TEST_CASE("each thread varies a build of its own") {
  const build::Build hut = test::hut();
  run::Batch<double> batch(
      hut, 100,
      [](build::Workpiece& piece, std::size_t number, base::Progress&) {
        piece.vary({"", {build::Setting{"pack.capacity", static_cast<double>(number)}}});
        std::this_thread::yield();
        return build::find_parameter(piece.parameters(), "pack.capacity")->amount->nominal_si;
      },
      {.threads = 4});
  base::NoProgress nobody;
  batch.run(
      [](std::size_t number, double&& result) {
        CHECK(result == static_cast<double>(number));
        return true;
      },
      nobody);
}
