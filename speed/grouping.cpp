// What matching a lot of cells takes, and how far the weakest group is from what cannot be
// exceeded.
#include "numeric/grouping.hpp"

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <random>
#include <string>

namespace {

using namespace tideover;

double now_s() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

struct Shape {
  std::size_t groups;
  std::size_t each;
  std::size_t spares;
};

/// Salvaged cells: 2.5 Ah, some weak, none above. Resistance goes up as capacity goes down.
numeric::GroupingProblem lot(const Shape& shape, bool has_bands, unsigned seed) {
  std::mt19937_64 random(seed);
  const auto share = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
  numeric::GroupingProblem problem;
  problem.groups = shape.groups;
  problem.each = shape.each;
  const std::size_t count = shape.groups * shape.each + shape.spares;
  std::vector<double> siemens;
  for (std::size_t k = 0; k < count; ++k) {
    const double worn = 0.3 * share() * share();
    problem.worth.push_back(2.5 * (1.0 - worn));
    siemens.push_back(1.0 / (0.05 * (1.0 + worn + 0.2 * share())));
  }
  if (has_bands) {
    problem.bands.push_back({siemens, numeric::EvenBand::Measure::Ratio, 0.02});
  }
  return problem;
}

void say(const std::string& name, double value, const char* unit) {
  std::printf("%s: %.4g %s\n", name.c_str(), value, unit);
}

/// The slowest and the widest of several lots of a shape.
void measure(const Shape& shape, bool has_bands, unsigned lots) {
  double slowest_s = 0.0;
  double widest = 0.0;
  double gain = 1.0;
  unsigned best = 0;
  for (unsigned seed = 0; seed < lots; ++seed) {
    const numeric::GroupingProblem problem = lot(shape, has_bands, seed);
    base::NoProgress nobody;
    const double begin = now_s();
    const numeric::Grouping made = numeric::group_evenly(problem, nobody);
    slowest_s = std::max(slowest_s, now_s() - begin);
    widest = std::max(widest, made.gap_share());
    gain = std::min(gain, made.weakest / numeric::in_order(problem).weakest - 1.0);
    best += made.is_best ? 1 : 0;
    if (!made.keeps_bands) std::printf("grouping: a band was not kept\n");
  }
  const std::string name = "grouping " + std::to_string(shape.groups * shape.each + shape.spares) +
                           " cells in " + std::to_string(shape.groups) + " of " +
                           std::to_string(shape.each) + (has_bands ? " under a band" : "");
  say(name + ", slowest", slowest_s, "s");
  say(name + ", widest proven gap", 100.0 * widest, "%");
  say(name + ", least gain on taking in order", 100.0 * gain, "%");
  say(name + ", share shown to be best", static_cast<double>(best) / lots, "");
}

}  // namespace

int main() {
  for (const Shape& shape : {Shape{4, 4, 0}, Shape{4, 3, 4}, Shape{5, 3, 1}, Shape{8, 2, 0},
                             Shape{7, 2, 2}, Shape{3, 4, 4}, Shape{2, 8, 0}}) {
    measure(shape, false, 20);
    measure(shape, true, 20);
  }
  for (const Shape& shape : {Shape{5, 4, 0}, Shape{5, 4, 4}, Shape{10, 4, 10}}) {
    measure(shape, false, 5);
    measure(shape, true, 5);
  }
  for (const Shape& shape : {Shape{10, 40, 0}, Shape{13, 30, 10}, Shape{100, 4, 0},
                             Shape{130, 3, 10}, Shape{199, 2, 2}}) {
    measure(shape, false, 3);
    measure(shape, true, 3);
  }
  return 0;
}
