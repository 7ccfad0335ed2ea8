// Draws of the tide-gauge hut without bursts: what one costs beside a single run, what cores give,
// and what memory they take. A draw is two runs (as is, and worn) with all rules asked.
#include "question/bands.hpp"

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <thread>

#include "build/read_sheet.hpp"
#include "question/calm.hpp"
#include "run/run.hpp"
#include "shelf/shelf.hpp"

namespace {

using namespace tideover;

/// Enough for the batch to fill and empty without its ends showing; less than a minute.
constexpr std::uint64_t draws = 200;
constexpr std::uint64_t wanted = 10'000;

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void say(const std::string& name, double value, const char* unit) {
  std::printf("%s: %.4g %s\n", name.c_str(), value, unit);
}

/// The quickest of five, as `predict` would carry it out.
double single_run_s(const build::Build& hut) {
  const build::Build calm = question::without_bursts(hut);
  base::NoProgress nobody;
  double best_s = 1e300;
  for (int again = 0; again < 5; ++again) {
    const double begin_s = now_s();
    static_cast<void>(run::run(calm, hut.timelines.front(), {}, {}, nobody));
    best_s = std::min(best_s, now_s() - begin_s);
  }
  return best_s;
}

double draws_take_s(const build::Build& hut, std::uint64_t count, unsigned threads) {
  base::NoProgress nobody;
  const double begin_s = now_s();
  static_cast<void>(
      question::bands(hut, {.draws = count, .width_draws = 0, .threads = threads}, nobody));
  return now_s() - begin_s;
}

double peak_memory_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

}  // namespace

int main() {
  const auto read =
      build::read_sheet_file(TIDEOVER_SOURCE_DIR "/examples/tide-hut", shelf::built_in_shelf());
  if (!read) return 1;
  const build::Build& hut = read.value();
  const double single_s = single_run_s(hut);
  const double quarter_s = draws_take_s(hut, draws / 4, 0);
  const double quarter_mb = peak_memory_mb();
  const double all_s = draws_take_s(hut, draws, 0);
  const double all_mb = peak_memory_mb();
  const double one_core_s = draws_take_s(hut, draws / 4, 1);
  const auto count = static_cast<double>(draws);
  const std::string many = std::to_string(draws);
  const std::string few = std::to_string(draws / 4);
  say("cores", static_cast<double>(std::thread::hardware_concurrency()), "cores");
  say("draws " + many, all_s, "s");
  say("draws " + std::to_string(wanted) + ", reckoned from " + many,
      all_s * static_cast<double>(wanted) / count, "s");
  say("draw ratio to single run", all_s / count / single_s, "times");
  say("draws on one core, time to all cores", one_core_s / quarter_s, "times");
  say("peak memory after " + few + " draws", quarter_mb, "MB");
  say("peak memory after " + many + " draws", all_mb, "MB");
}
