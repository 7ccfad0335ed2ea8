// A day of a supply by our own stepper and by SUNDIALS IDA on the same residuals.
#include "day.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <optional>
#include <string>
#include <vector>

#include "hybrid/stepper.hpp"
#include "numeric/elimination.hpp"
#include "reference/ida_run.hpp"
#include "run/run.hpp"
#include "tide_hut.hpp"

namespace {

using namespace tideover;
using speed::Day;
using speed::DayWatch;

/// What a run uses unless told otherwise.
const double tolerance = run::Settings{}.relative_tolerance;

/// Time this thread has had a core to itself: what other programs take does not count.
double now_s() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}
double since_s(double begin_s) { return now_s() - begin_s; }

void say(const std::string& name, double value, const char* unit) {
  std::printf("%s: %.4g %s\n", name.c_str(), value, unit);
}

struct Lived {
  std::vector<DayWatch::Event> events;
  std::vector<double> y;
  hybrid::Statistics statistics;
  reference::IdaStatistics ida;
  double took_s = 1e300;
};

/// The quickest of several runs; the first is thrown away with the caches it fills.
template <class Run>
Lived quickest(const Run& run, double budget_s) {
  Lived best = run();
  const auto begin = now_s();
  do {
    Lived lived = run();
    if (lived.took_s < best.took_s) best = std::move(lived);
  } while (since_s(begin) < budget_s);
  return best;
}

Lived by_stepper(const Day& original) {
  Day day = original;
  DayWatch watch(day.net);
  Lived lived;
  const auto begin = now_s();
  hybrid::Stepper stepper(day.net, {.relative_tolerance = tolerance}, 0.0, day.start);
  speed::live_through(day, stepper, watch);
  lived.took_s = since_s(begin);
  lived.events = watch.events();
  lived.y.assign(stepper.y().begin(), stepper.y().end());
  lived.statistics = stepper.statistics();
  return lived;
}

Lived by_ida(const Day& original, double relative_tolerance) {
  Day day = original;
  DayWatch watch(day.net);
  Lived lived;
  const auto begin = now_s();
  reference::IdaRun run(day.net, {.relative_tolerance = relative_tolerance, .shows_steps = false},
                        0.0, day.start);
  speed::live_through(day, run, watch);
  lived.took_s = since_s(begin);
  lived.events = watch.events();
  lived.y.assign(run.y().begin(), run.y().end());
  lived.ida = run.statistics();
  return lived;
}

/// From the loss of mains to the board's cut-off; nothing if it never cut.
std::optional<double> run_time_s(const Lived& lived) {
  for (const DayWatch::Event& event : lived.events) {
    if (event.words.find("cuts the discharge path") == std::string::npos) continue;
    return event.time_s - speed::mains_lost_s;
  }
  return std::nullopt;
}

/// Relative error of the run time; 1 where one of the two has none.
double error_of(const Lived& lived, const Lived& reference) {
  const auto ours = run_time_s(lived);
  const auto theirs = run_time_s(reference);
  if (!ours || !theirs) return 1.0;
  return std::abs(*ours / *theirs - 1.0);
}

template <class Deed>
double nanoseconds_each(const Deed& deed) {
  constexpr int times = 20000;
  for (int k = 0; k < times / 10; ++k) deed();
  const auto begin = now_s();
  for (int k = 0; k < times; ++k) deed();
  return since_s(begin) / times * 1e9;
}

/// What a step cannot do without: a factorisation, and for each implicit stage one evaluation of
/// the laws and one solution; each measured by itself.
void say_bound(const Day& day, const Lived& ours) {
  const auto& net = day.net;
  std::vector<double> y = ours.y;
  std::vector<double> f(y.size());
  std::vector<double> entries(static_cast<std::size_t>(net.pattern().entry_count()) + 1);
  net.jacobian(y, f, entries);
  for (double& entry : entries) entry = -entry;
  for (int k = 0; k < net.size(); ++k) {
    if (net.differential()[static_cast<std::size_t>(k)] != 0) {
      entries[static_cast<std::size_t>(net.pattern().find(k, k))] += 0.1;
    }
  }
  numeric::Elimination elimination(net.pattern());
  if (!elimination.plan(entries)) return;
  const double factor_ns =
      nanoseconds_each([&] { static_cast<void>(elimination.factor(entries)); });
  const double solve_ns = nanoseconds_each([&] { elimination.solve(f); });
  const double rates_ns = nanoseconds_each([&] { net.rates(y, f); });
  std::vector<double> scratch(entries.size());
  const double jacobian_ns = nanoseconds_each([&] { net.jacobian(y, f, scratch); });
  const int stages = hybrid::esdirk_43().stages - 1;
  const std::string name = day.name + " ";
  say(name + "unknowns", net.size(), "");
  say(name + "multiply-adds of a factorisation", static_cast<double>(elimination.operation_count()),
      "");
  say(name + "multiply-adds of a solution", elimination.fill_count(), "");
  say(name + "factorisation", factor_ns, "ns");
  say(name + "solution", solve_ns, "ns");
  say(name + "law evaluation", rates_ns, "ns");
  say(name + "law evaluation with derivatives", jacobian_ns, "ns");
  say(name + "time per step", ours.took_s / static_cast<double>(ours.statistics.steps) * 1e6, "us");
  say(name + "arithmetic bound of a step", (factor_ns + stages * (solve_ns + rates_ns)) * 1e-3,
      "us");
}

/// IDA with the loosest tolerance that is as good as our error, or as a millionth.
Lived ida_at_equal_error(const Day& day, const Lived& reference, double error) {
  Lived lived;
  for (double relative = 1e-3; relative > 1e-10; relative *= std::sqrt(0.1)) {
    lived = by_ida(day, relative);
    if (error_of(lived, reference) <= std::max(error, 1e-6)) {
      const double used = relative;
      lived = quickest([&] { return by_ida(day, used); }, 1.0);
      say(day.name + " tolerance of IDA", relative, "");
      break;
    }
  }
  return lived;
}

void compare(const Day& day) {
  const Lived ours = quickest([&] { return by_stepper(day); }, 1.0);
  const Lived reference = by_ida(day, 1e-10);
  const double error = error_of(ours, reference);
  const Lived theirs = ida_at_equal_error(day, reference, error);
  const std::string& name = day.name;
  say(name, ours.took_s * 1e3, "ms");
  say(name + " by IDA", theirs.took_s * 1e3, "ms");
  say(name + " ratio to IDA", theirs.took_s / ours.took_s, "");
  say(name + " error against IDA 1e-10", error * 1e6, "ppm");
  say(name + " events", static_cast<double>(ours.events.size()), "");
  say(name + " steps", static_cast<double>(ours.statistics.steps), "");
  say(name + " refused steps", static_cast<double>(ours.statistics.refused_steps), "");
  say(name + " rate evaluations", static_cast<double>(ours.statistics.rate_evaluations), "");
  say(name + " derivative evaluations", static_cast<double>(ours.statistics.jacobian_evaluations),
      "");
  say(name + " factorisations", static_cast<double>(ours.statistics.factorisations), "");
  say(name + " plans", static_cast<double>(ours.statistics.plans), "");
  say(name + " steps of IDA", static_cast<double>(theirs.ida.steps), "");
  say(name + " rate evaluations of IDA", static_cast<double>(theirs.ida.residual_evaluations), "");
  say_bound(day, ours);
}

}  // namespace

int main(int argc, char** argv) {
  const std::string folder = argc > 1 ? argv[1] : TIDEOVER_SOURCE_DIR "/examples/tide-hut";
  const auto sheet = build::read_sheet_file(folder, shelf::built_in_shelf());
  if (!sheet) {
    std::fputs(base::show(sheet.problems()).c_str(), stderr);
    return 2;
  }
  compare(speed::tide_hut_day(sheet.value(), false));
  compare(speed::tide_hut_day(sheet.value(), true));
}
