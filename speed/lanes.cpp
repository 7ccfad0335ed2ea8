// What variations of one build side by side in SIMD lanes would gain: the linear algebra of a step
// in 1, 4 and 8 lanes, its share of a run, and how far variations stay in step.
// docs/measurements.md says what follows from it.
#include <algorithm>
#include <array>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "hybrid/stepper.hpp"
#include "numeric/elimination.hpp"
#include "tide_hut.hpp"

namespace {

using namespace tideover;

constexpr int variations = 8;

double now_s() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

void say(const std::string& name, double value, const char* unit) {
  std::printf("%s: %.4g %s\n", name.c_str(), value, unit);
}

/// Pivots down the diagonal by least degree, and the replay as flat lists.
struct Plan {
  int n = 0;
  int places = 0;
  std::vector<int> pivot;        ///< k-th pivot's row and column
  std::vector<int> load;         ///< place of each entry of the pattern
  std::vector<int> upper_start;  ///< first place of U's row k; n + 1 long
  std::vector<int> upper_column;
  std::vector<int> lower_start;  ///< first of L's column k; n + 1 long
  std::vector<int> lower_place;
  std::vector<int> lower_row;
  std::vector<int> target;
};

using Present = std::vector<std::vector<char>>;

Present fill_in(const numeric::Pattern& pattern, std::vector<int>& pivot) {
  const auto n = static_cast<std::size_t>(pattern.size());
  Present present(n, std::vector<char>(n, 0));
  for (std::size_t r = 0; r < n; ++r) {
    for (int e = pattern.row_start()[r]; e < pattern.row_start()[r + 1]; ++e) {
      const auto c = static_cast<std::size_t>(pattern.column()[static_cast<std::size_t>(e)]);
      present[r][c] = present[c][r] = 1;
    }
  }
  std::vector<char> done(n, 0);
  for (std::size_t k = 0; k < n; ++k) {
    std::vector<std::size_t> best;
    std::size_t best_row = n;
    for (std::size_t r = 0; r < n; ++r) {
      if (done[r] != 0) continue;
      std::vector<std::size_t> others;
      for (std::size_t c = 0; c < n; ++c) {
        if (c != r && done[c] == 0 && present[r][c] != 0) others.push_back(c);
      }
      if (best_row < n && others.size() >= best.size()) continue;
      best = std::move(others);
      best_row = r;
    }
    done[best_row] = 1;
    pivot.push_back(static_cast<int>(best_row));
    for (const std::size_t r : best) {
      for (const std::size_t c : best) present[r][c] = 1;
    }
  }
  return present;
}

Plan make_plan(const numeric::Pattern& pattern) {
  Plan plan;
  plan.n = pattern.size();
  const Present present = fill_in(pattern, plan.pivot);
  const auto n = static_cast<std::size_t>(plan.n);
  std::vector<std::size_t> at(n);
  for (std::size_t k = 0; k < n; ++k) at[static_cast<std::size_t>(plan.pivot[k])] = k;
  const auto has = [&](std::size_t r, std::size_t c) {
    return present[static_cast<std::size_t>(plan.pivot[r])]
                  [static_cast<std::size_t>(plan.pivot[c])] != 0;
  };
  std::vector<int> place(n * n, -1);
  plan.places = plan.n;
  for (std::size_t k = 0; k < n; ++k) {
    place[k * n + k] = static_cast<int>(k);
    plan.upper_start.push_back(plan.places);
    for (std::size_t c = k + 1; c < n; ++c) {
      if (!has(k, c)) continue;
      place[k * n + c] = plan.places++;
      plan.upper_column.push_back(static_cast<int>(c));
    }
  }
  plan.upper_start.push_back(plan.places);
  for (std::size_t k = 0; k < n; ++k) {
    plan.lower_start.push_back(static_cast<int>(plan.lower_row.size()));
    for (std::size_t r = k + 1; r < n; ++r) {
      if (!has(r, k)) continue;
      place[r * n + k] = plan.places++;
      plan.lower_place.push_back(place[r * n + k]);
      plan.lower_row.push_back(static_cast<int>(r));
    }
  }
  plan.lower_start.push_back(static_cast<int>(plan.lower_row.size()));
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t r = k + 1; r < n; ++r) {
      if (!has(r, k)) continue;
      for (std::size_t c = k + 1; c < n; ++c) {
        if (has(k, c)) plan.target.push_back(place[r * n + c]);
      }
    }
  }
  for (std::size_t r = 0; r < n; ++r) {
    for (int e = pattern.row_start()[r]; e < pattern.row_start()[r + 1]; ++e) {
      const auto c = static_cast<std::size_t>(pattern.column()[static_cast<std::size_t>(e)]);
      plan.load.push_back(place[at[r] * n + at[c]]);
    }
  }
  return plan;
}

/// One number a lane, where whole registers lie.
template <int Lanes>
struct Abreast {
  using Numbers [[gnu::vector_size(Lanes * sizeof(double)), gnu::may_alias]] = double;
};

/// Doubles that begin where the widest register may.
class Row {
 public:
  Row(std::size_t count, double value) : lines_((count + 7) / 8) {
    std::fill_n(data(), lines_.size() * 8, value);
  }
  [[nodiscard]] double* data() { return lines_.data()->number; }

 private:
  struct alignas(64) Line {
    double number[8];
  };
  std::vector<Line> lines_;
};

template <int Lanes>
[[gnu::always_inline]] inline void factor(const Plan& plan, const double* entries, double* value) {
  using Numbers = typename Abreast<Lanes>::Numbers;
  std::fill_n(value, plan.places * Lanes, 0.0);
  const auto from = reinterpret_cast<const Numbers*>(entries);
  const auto all = reinterpret_cast<Numbers*>(value);
  for (std::size_t e = 0; e < plan.load.size(); ++e) all[plan.load[e]] = from[e];
  const int* target = plan.target.data();
  const int* const upper_start = plan.upper_start.data();
  const int* const lower_start = plan.lower_start.data();
  for (int k = 0; k < plan.n; ++k) {
    const Numbers* const upper = all + upper_start[k];
    const int count = upper_start[k + 1] - upper_start[k];
    all[k] = 1.0 / all[k];
    for (int l = lower_start[k]; l < lower_start[k + 1]; ++l) {
      Numbers* const lower = all + plan.lower_place.data()[l];
      *lower *= all[k];
      for (int u = 0; u < count; ++u) all[target[u]] -= *lower * upper[u];
      target += count;
    }
  }
}

template <int Lanes>
[[gnu::always_inline]] inline void solve(const Plan& plan, const double* value, double* b,
                                         double* right) {
  using Numbers = typename Abreast<Lanes>::Numbers;
  const auto factors = reinterpret_cast<const Numbers*>(value);
  const auto given = reinterpret_cast<Numbers*>(b);
  const auto x = reinterpret_cast<Numbers*>(right);
  const int* const pivot = plan.pivot.data();
  const int* const lower_start = plan.lower_start.data();
  const int* const upper_start = plan.upper_start.data();
  for (int k = 0; k < plan.n; ++k) x[k] = given[pivot[k]];
  for (int k = 0; k < plan.n; ++k) {
    for (int l = lower_start[k]; l < lower_start[k + 1]; ++l) {
      x[plan.lower_row.data()[l]] -= factors[plan.lower_place.data()[l]] * x[k];
    }
  }
  const int* const upper_column = plan.upper_column.data() - plan.n;
  for (int k = plan.n - 1; k >= 0; --k) {
    Numbers sum = x[k];
    for (int u = upper_start[k]; u < upper_start[k + 1]; ++u)
      sum -= factors[u] * x[upper_column[u]];
    given[pivot[k]] = x[k] = sum * factors[k];
  }
}

// One function a width and processor: a program for any x86-64 uses what the machine has.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define TIDEOVER_EACH_PROCESSOR [[gnu::target_clones("default", "avx2", "avx512f")]]
#else
#define TIDEOVER_EACH_PROCESSOR
#endif

TIDEOVER_EACH_PROCESSOR void factor_4(const Plan& plan, const double* entries, double* value) {
  factor<4>(plan, entries, value);
}
TIDEOVER_EACH_PROCESSOR void factor_8(const Plan& plan, const double* entries, double* value) {
  factor<8>(plan, entries, value);
}
TIDEOVER_EACH_PROCESSOR void solve_4(const Plan& plan, const double* value, double* b, double* r) {
  solve<4>(plan, value, b, r);
}
TIDEOVER_EACH_PROCESSOR void solve_8(const Plan& plan, const double* value, double* b, double* r) {
  solve<8>(plan, value, b, r);
}

/// The quickest of ten rounds of `times` calls.
template <class Deed>
double nanoseconds_each(const Deed& deed) {
  constexpr int times = 1000;
  double best = 1e300;
  for (int round = 0; round < 10; ++round) {
    const double begin = now_s();
    for (int k = 0; k < times; ++k) deed();
    best = std::min(best, (now_s() - begin) / times * 1e9);
  }
  return best;
}

struct Cost {
  double factor_ns = 0.0;
  double solve_ns = 0.0;
};

void say_cost(const Cost& cost, int lanes) {
  const std::string name = "lanes " + std::to_string(lanes);
  say(name + " factorisation, each lane", cost.factor_ns / lanes, "ns");
  say(name + " solution, each lane", cost.solve_ns / lanes, "ns");
}

/// As the stepper does it.
Cost alone_in(const numeric::Pattern& pattern, const std::vector<double>& entries) {
  numeric::Elimination elimination(pattern);
  Cost cost;
  if (!elimination.plan(entries)) return cost;
  std::vector<double> b(static_cast<std::size_t>(pattern.size()));
  cost.factor_ns = nanoseconds_each([&] { static_cast<void>(elimination.factor(entries)); });
  cost.solve_ns = nanoseconds_each([&] {
    std::fill(b.begin(), b.end(), 1.0);
    elimination.solve(b);
  });
  say_cost(cost, 1);
  return cost;
}

Cost in_lanes(const Plan& plan, const std::vector<double>& entries, int lanes) {
  const auto width = static_cast<std::size_t>(lanes);
  const std::size_t unknowns = static_cast<std::size_t>(plan.n) * width;
  Row wide(entries.size() * width, 0.0);
  for (std::size_t k = 0; k < entries.size() * width; ++k) wide.data()[k] = entries[k / width];
  Row value(static_cast<std::size_t>(plan.places) * width, 0.0);
  Row b(unknowns, 1.0);
  Row right(unknowns, 0.0);
  const auto factor = lanes == 4 ? factor_4 : factor_8;
  const auto solve = lanes == 4 ? solve_4 : solve_8;
  Cost cost;
  cost.factor_ns = nanoseconds_each([&] { factor(plan, wide.data(), value.data()); });
  cost.solve_ns = nanoseconds_each([&] {
    std::fill_n(b.data(), unknowns, 1.0);
    solve(plan, value.data(), b.data(), right.data());
  });
  say_cost(cost, lanes);
  return cost;
}

/// Notes what each step of a day took, and ends the outage at the cut-off.
class StepWatch final : public hybrid::Observer {
 public:
  StepWatch(const network::Network& net, std::vector<long>& evaluations)
      : day_(net), evaluations_(evaluations) {}
  void stepped(const hybrid::Step&) override {
    const long now = stepper->statistics().rate_evaluations;
    evaluations_.push_back(now - before_);
    before_ = now;
  }
  [[nodiscard]] bool has_seen_enough() override { return day_.has_seen_enough(); }
  void wait_for_cut_off(bool waits) { day_.wait_for_cut_off(waits); }

  const hybrid::Stepper* stepper = nullptr;

 private:
  speed::DayWatch day_;
  std::vector<long>& evaluations_;
  long before_ = 0;
};

struct Lived {
  std::array<std::vector<long>, variations> evaluations;  ///< of each step
  hybrid::Statistics total;
  double took_s = 0.0;
};

/// The day of variations whose packs begin with somewhat less charge.
Lived live(const speed::Day& original) {
  Lived lived;
  for (int v = 0; v < variations; ++v) {
    speed::Day day = original;
    for (std::size_t u = 0; u < day.start.size(); ++u) {
      const bool is_charge =
          day.net.name_of(static_cast<int>(u)).find(" charge") != std::string::npos;
      if (is_charge) day.start[u] *= 1.0 - 0.002 * v;
    }
    const double begin = now_s();
    hybrid::Stepper stepper(day.net, {.relative_tolerance = 1e-4}, 0.0, day.start);
    StepWatch watch(day.net, lived.evaluations[static_cast<std::size_t>(v)]);
    watch.stepper = &stepper;
    for (const speed::Stretch& stretch : day.stretches) {
      hybrid::Marks marks;
      for (const auto& stimulus : stretch.stimuli) {
        day.net.stimulate(stepper.time_s(), stepper.y(), stimulus, marks);
      }
      if (!stretch.stimuli.empty()) stepper.disturbed();
      watch.wait_for_cut_off(stretch.ends_at_cut_off);
      const double end_s = std::min(stepper.time_s() + stretch.lasts_s, stretch.ends_at_s);
      static_cast<void>(stepper.advance(end_s, watch));
    }
    lived.took_s += now_s() - begin;
    lived.total.steps += stepper.statistics().steps;
    lived.total.rate_evaluations += stepper.statistics().rate_evaluations;
    lived.total.jacobian_evaluations += stepper.statistics().jacobian_evaluations;
    lived.total.factorisations += stepper.statistics().factorisations;
  }
  return lived;
}

/// Share of the lanes' work that is somebody's, when each step takes as many evaluations as the
/// slowest of the lanes needs and a day as many steps as the longest.
double in_step(const Lived& lived) {
  std::size_t longest = 0;
  long sum = 0;
  for (const auto& steps : lived.evaluations) {
    longest = std::max(longest, steps.size());
    for (const long evaluations : steps) sum += evaluations;
  }
  long together = 0;
  for (std::size_t k = 0; k < longest; ++k) {
    long most = 0;
    for (const auto& steps : lived.evaluations) {
      if (k < steps.size()) most = std::max(most, steps[k]);
    }
    together += most;
  }
  return static_cast<double>(sum) / (static_cast<double>(together) * variations);
}

}  // namespace

int main(int argc, char** argv) {
  const std::string folder = argc > 1 ? argv[1] : TIDEOVER_SOURCE_DIR "/examples/tide-hut";
  const auto sheet = build::read_sheet_file(folder, shelf::built_in_shelf());
  if (!sheet) {
    std::fputs(base::show(sheet.problems()).c_str(), stderr);
    return 2;
  }
  const speed::Day day = speed::tide_hut_day(sheet.value(), false);
  const auto& net = day.net;
  std::vector<double> f(day.start.size());
  std::vector<double> entries(static_cast<std::size_t>(net.pattern().entry_count()) + 1);
  net.jacobian(day.start, f, entries);
  for (double& entry : entries) entry = -entry;
  for (int k = 0; k < net.size(); ++k) {
    if (net.differential()[static_cast<std::size_t>(k)] == 0) continue;
    entries[static_cast<std::size_t>(net.pattern().find(k, k))] += 0.1;
  }
  const Plan plan = make_plan(net.pattern());
  const Cost alone = alone_in(net.pattern(), entries);
  in_lanes(plan, entries, 4);
  const Cost eight = in_lanes(plan, entries, 8);

  const Lived lived = live(day);
  const double algebra_s =
      1e-9 *
      (static_cast<double>(lived.total.factorisations) * alone.factor_ns +
       static_cast<double>(lived.total.rate_evaluations + lived.total.steps) * alone.solve_ns);
  std::vector<double> scratch(entries.size());
  const double laws_s = 1e-9 * (static_cast<double>(lived.total.rate_evaluations) *
                                    nanoseconds_each([&] { net.rates(day.start, f); }) +
                                static_cast<double>(lived.total.jacobian_evaluations) *
                                    nanoseconds_each([&] { net.jacobian(day.start, f, scratch); }));
  const double algebra = algebra_s / lived.took_s;
  const double laws = laws_s / lived.took_s;
  const double together = in_step(lived);
  const double left = (eight.factor_ns + eight.solve_ns) / (alone.factor_ns + alone.solve_ns) / 8.0;
  say("lanes share of linear algebra in a day", algebra, "");
  say("lanes share of laws in a day", laws, "");
  say("lanes share of useful work of 8 in step", together, "");
  say("lanes gain of 8, linear algebra in lanes", 1.0 / (1.0 - algebra + algebra * left / together),
      "");
  say("lanes gain of 8, all but the laws in lanes", 1.0 / (laws + (1.0 - laws) * left / together),
      "");
  return 0;
}
