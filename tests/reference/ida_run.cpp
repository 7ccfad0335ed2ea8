#include "reference/ida_run.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include <fmt/format.h>
#include <ida/ida.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

namespace tideover::reference {

namespace {

/// Quadrature of Lobatto with six points, exact to the ninth power, in the dress of a tableau: the
/// only parts an observer reads are the instants and the weights.
/// Source: Abramowitz and Stegun, table 25.6.
hybrid::Tableau make_lobatto() {
  const double root = std::sqrt(7.0);
  const double inner = std::sqrt(1.0 / 3.0 - 2.0 * root / 21.0);
  const double outer = std::sqrt(1.0 / 3.0 + 2.0 * root / 21.0);
  const double heavy = (14.0 + root) / 60.0;
  const double light = (14.0 - root) / 60.0;
  hybrid::Tableau t{.name = "six points of Lobatto", .stages = 6, .order = 10};
  t.a[5] = {1.0 / 30.0, light, heavy, heavy, light, 1.0 / 30.0};
  t.c = {0.0, 0.5 * (1.0 - outer), 0.5 * (1.0 - inner), 0.5 * (1.0 + inner), 0.5 * (1.0 + outer),
         1.0};
  return t;
}

const hybrid::Tableau& lobatto() {
  static const hybrid::Tableau tableau = make_lobatto();
  return tableau;
}

std::span<double> span_of(N_Vector v) {
  return {N_VGetArrayPointer(v), static_cast<std::size_t>(NV_LENGTH_S(v))};
}

/// What a run owns in the library's own memory.
struct Memory {
  SUNContext context = nullptr;
  void* ida = nullptr;
  N_Vector y = nullptr;
  N_Vector slope = nullptr;
  N_Vector read = nullptr;
  N_Vector tolerance = nullptr;
  SUNMatrix matrix = nullptr;        ///< of IDA's own iteration
  SUNMatrix start_matrix = nullptr;  ///< of the iteration that makes a start consistent
  SUNLinearSolver linear = nullptr;
  SUNLinearSolver start_linear = nullptr;

  Memory() = default;
  Memory(const Memory&) = delete;
  Memory& operator=(const Memory&) = delete;
  ~Memory() {
    if (ida != nullptr) IDAFree(&ida);
    for (SUNLinearSolver s : {linear, start_linear}) {
      if (s != nullptr) SUNLinSolFree(s);
    }
    for (SUNMatrix m : {matrix, start_matrix}) {
      if (m != nullptr) SUNMatDestroy(m);
    }
    for (N_Vector v : {y, slope, read, tolerance}) {
      if (v != nullptr) N_VDestroy(v);
    }
    if (context != nullptr) SUNContext_Free(&context);
  }
};

}  // namespace

struct IdaRun::Solver {
  Solver(hybrid::System& system, const IdaSettings& settings, double time_s,
         const std::vector<double>& y);

  hybrid::System& system;
  IdaSettings settings;
  std::span<const char> differential;
  double time_s;
  Memory memory;
  IdaStatistics before;  ///< of all stretches up to the last restart
  std::string last_words;
  bool must_restart = true;
  bool must_react = true;

  std::vector<double> rates;
  std::vector<double> entries;
  std::vector<double> margins;
  std::vector<std::vector<double>> stages;
  std::vector<std::vector<double>> slopes;

  void open_ida();
  void check(int flag, const char* what) const;
  void fill(SUNMatrix matrix, double alpha, bool differential_rows_are_unit);
  void make_consistent();
  void restart();
  void gather_statistics(IdaStatistics& sum) const;
  hybrid::Outcome react_to_all(hybrid::Observer& observer);
  bool step_to(double stop_s, hybrid::Observer& observer);
  void show(double begin_s, hybrid::Observer& observer);

  static int residual(realtype, N_Vector y, N_Vector slope, N_Vector r, void* user);
  static int jacobian(realtype, realtype alpha, N_Vector y, N_Vector, N_Vector, SUNMatrix matrix,
                      void* user, N_Vector, N_Vector, N_Vector);
  static int roots(realtype t, N_Vector y, N_Vector, realtype* g, void* user);
  static void complaint(int, const char*, const char* function, char* words, void* user);
};

IdaRun::Solver::Solver(hybrid::System& the_system, const IdaSettings& the_settings, double start_s,
                       const std::vector<double>& start)
    : system(the_system),
      settings(the_settings),
      differential(the_system.differential()),
      time_s(start_s),
      rates(start.size()),
      entries(static_cast<std::size_t>(the_system.pattern().entry_count()) + 1),
      margins(static_cast<std::size_t>(the_system.guard_count())),
      stages(static_cast<std::size_t>(lobatto().stages), std::vector<double>(start.size())),
      slopes(stages) {
  if (static_cast<int>(start.size()) != system.size()) {
    throw std::runtime_error("one start value an unknown");
  }
  check(SUNContext_Create(nullptr, &memory.context), "SUNContext_Create");
  const auto n = static_cast<sunindextype>(start.size());
  const sunindextype filled = system.pattern().entry_count();
  for (N_Vector* v : {&memory.y, &memory.slope, &memory.read, &memory.tolerance}) {
    *v = N_VNew_Serial(n, memory.context);
  }
  for (SUNMatrix* m : {&memory.matrix, &memory.start_matrix}) {
    *m = SUNSparseMatrix(n, n, filled, CSR_MAT, memory.context);
  }
  memory.linear = SUNLinSol_KLU(memory.y, memory.matrix, memory.context);
  memory.start_linear = SUNLinSol_KLU(memory.y, memory.start_matrix, memory.context);
  std::copy(start.begin(), start.end(), span_of(memory.y).begin());
  N_VConst(0.0, memory.slope);
  check(SUNLinSolInitialize(memory.start_linear), "SUNLinSolInitialize");
  open_ida();
}

void IdaRun::Solver::open_ida() {
  memory.ida = IDACreate(memory.context);
  if (memory.ida == nullptr || memory.linear == nullptr) throw std::runtime_error("IDACreate");
  check(IDASetErrHandlerFn(memory.ida, complaint, this), "IDASetErrHandlerFn");
  check(IDAInit(memory.ida, residual, time_s, memory.y, memory.slope), "IDAInit");
  const auto scale = system.scale();
  const auto tolerance = span_of(memory.tolerance);
  for (std::size_t k = 0; k < tolerance.size(); ++k) {
    tolerance[k] = settings.relative_tolerance * scale[k];
  }
  check(IDASVtolerances(memory.ida, settings.relative_tolerance, memory.tolerance),
        "IDASVtolerances");
  check(IDASetUserData(memory.ida, this), "IDASetUserData");
  check(IDASetLinearSolver(memory.ida, memory.linear, memory.matrix), "IDASetLinearSolver");
  check(IDASetJacFn(memory.ida, jacobian), "IDASetJacFn");
  check(IDASetMaxOrd(memory.ida, settings.highest_order), "IDASetMaxOrd");
  check(IDASetMaxErrTestFails(memory.ida, 40), "IDASetMaxErrTestFails");
  check(IDASetMaxConvFails(memory.ida, 40), "IDASetMaxConvFails");
  if (margins.empty()) return;
  const int guards = static_cast<int>(margins.size());
  check(IDARootInit(memory.ida, guards, roots), "IDARootInit");
  std::vector<int> rising(margins.size(), 1);
  check(IDASetRootDirection(memory.ida, rising.data()), "IDASetRootDirection");
  check(IDASetNoInactiveRootWarn(memory.ida), "IDASetNoInactiveRootWarn");
}

void IdaRun::Solver::check(int flag, const char* what) const {
  if (flag >= 0) return;
  throw std::runtime_error(
      fmt::format("{} failed with {} at {:.9g} s: {}", what, flag, time_s, last_words));
}

/// alpha E - df/dy into `matrix`, with the entries of df/dy as they stand.
void IdaRun::Solver::fill(SUNMatrix matrix, double alpha, bool differential_rows_are_unit) {
  const auto& starts = system.pattern().row_start();
  const auto& columns = system.pattern().column();
  sunindextype* const pointers = SUNSparseMatrix_IndexPointers(matrix);
  sunindextype* const indices = SUNSparseMatrix_IndexValues(matrix);
  realtype* const data = SUNSparseMatrix_Data(matrix);
  for (std::size_t r = 0; r < differential.size(); ++r) {
    const bool is_differential = differential[r] != 0;
    const double share = is_differential && differential_rows_are_unit ? 0.0 : -1.0;
    pointers[r] = starts[r];
    for (auto e = static_cast<std::size_t>(starts[r]); e < static_cast<std::size_t>(starts[r + 1]);
         ++e) {
      const bool is_diagonal = columns[e] == static_cast<int>(r);
      indices[e] = columns[e];
      data[e] = share * entries[e] + (is_differential && is_diagonal ? alpha : 0.0);
    }
  }
  pointers[differential.size()] = starts.back();
}

/// Newton's iteration for the algebraic unknowns with the differential ones held, to the last
/// digits; then the slopes of all unknowns.
void IdaRun::Solver::make_consistent() {
  const auto y = span_of(memory.y);
  const auto scale = system.scale();
  const auto step = span_of(memory.read);
  double size_before = 1e300;
  for (int iteration = 0;; ++iteration) {
    system.jacobian(y, rates, entries);
    fill(memory.start_matrix, 1.0, true);
    // Pivots chosen in the last mode may be useless in this one: they are chosen anew.
    check(-std::abs(SUNLinSol_KLUReInit(memory.start_linear, memory.start_matrix,
                                        system.pattern().entry_count(), SUNKLU_REINIT_PARTIAL)),
          "start, choosing pivots");
    check(-std::abs(SUNLinSolSetup(memory.start_linear, memory.start_matrix)), "start, factoring");
    for (std::size_t k = 0; k < step.size(); ++k) step[k] = differential[k] != 0 ? 0.0 : rates[k];
    check(-std::abs(SUNLinSolSolve(memory.start_linear, memory.start_matrix, memory.read,
                                   memory.read, 0.0)),
          "start, solving");
    double size = 0.0;
    for (std::size_t k = 0; k < step.size(); ++k) {
      y[k] += step[k];
      size = std::max(size, std::abs(step[k]) / std::max(scale[k], std::abs(y[k])));
    }
    if (size < 1e-13 || (size < 1e-9 && size >= size_before)) break;
    if (iteration > 100 || !std::isfinite(size)) {
      throw std::runtime_error(
          fmt::format("no consistent start at {:.9g} s: last correction {:.3g}", time_s, size));
    }
    size_before = size;
  }
  system.rates(y, rates);
  const auto slope = span_of(memory.slope);
  for (std::size_t k = 0; k < slope.size(); ++k) slope[k] = differential[k] != 0 ? rates[k] : 0.0;
  check(-std::abs(SUNLinSolSolve(memory.start_linear, memory.start_matrix, memory.slope,
                                 memory.slope, 0.0)),
        "start, slopes");
}

void IdaRun::Solver::gather_statistics(IdaStatistics& sum) const {
  long steps = 0;
  long residuals = 0;
  long jacobians = 0;
  long guards = 0;
  IDAGetNumSteps(memory.ida, &steps);
  IDAGetNumResEvals(memory.ida, &residuals);
  IDAGetNumJacEvals(memory.ida, &jacobians);
  if (!margins.empty()) IDAGetNumGEvals(memory.ida, &guards);
  sum.steps += steps;
  sum.residual_evaluations += residuals;
  sum.jacobian_evaluations += jacobians;
  sum.guard_evaluations += guards;
}

void IdaRun::Solver::restart() {
  gather_statistics(before);
  ++before.restarts;
  make_consistent();
  check(IDAReInit(memory.ida, time_s, memory.y, memory.slope), "IDAReInit");
  must_restart = false;
}

hybrid::Outcome IdaRun::Solver::react_to_all(hybrid::Observer& observer) {
  must_react = false;
  hybrid::Marks marks;
  const auto y = span_of(memory.y);
  int count = 0;
  for (;; ++count) {
    int guard = hybrid::woken_by_clock;
    if (system.next_wake_s() > time_s) {
      system.guards(time_s, y, margins);
      const auto held =
          std::find_if(margins.begin(), margins.end(), [](double m) { return m > 0.0; });
      if (held == margins.end()) break;
      guard = static_cast<int>(held - margins.begin());
    }
    if (count >= settings.most_reactions_at_once) {
      observer.reacted(time_s, y, marks);
      return {hybrid::Ended::Restless, time_s, marks.empty() ? "" : marks.back().who};
    }
    static_cast<void>(system.react(time_s, y, guard, marks));
    ++before.reactions;
    make_consistent();
    must_restart = true;
  }
  if (count > 0) observer.reacted(time_s, y, marks);
  return {hybrid::Ended::AtTime, time_s, ""};
}

/// One step of IDA, not past `stop_s`. True if a guard holds at its end.
bool IdaRun::Solver::step_to(double stop_s, hybrid::Observer& observer) {
  if (must_restart) restart();
  const double begin_s = time_s;
  check(IDASetStopTime(memory.ida, stop_s), "IDASetStopTime");
  const int flag = IDASolve(memory.ida, stop_s, &time_s, memory.y, memory.slope, IDA_ONE_STEP);
  check(flag, "IDASolve");
  if (settings.shows_steps) show(begin_s, observer);
  if (flag == IDA_ROOT_RETURN) must_restart = true;
  system.guards(time_s, span_of(memory.y), margins);
  return std::any_of(margins.begin(), margins.end(), [](double m) { return m > 0.0; });
}

void IdaRun::Solver::show(double begin_s, hybrid::Observer& observer) {
  const auto& table = lobatto();
  const double length = time_s - begin_s;
  const auto read = span_of(memory.read);
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const double at = i + 1 == stages.size() ? time_s : begin_s + table.c[i] * length;
    check(IDAGetDky(memory.ida, at, 0, memory.read), "IDAGetDky");
    std::copy(read.begin(), read.end(), stages[i].begin());
    check(IDAGetDky(memory.ida, at, 1, memory.read), "IDAGetDky");
    std::copy(read.begin(), read.end(), slopes[i].begin());
  }
  observer.stepped({begin_s, time_s, &table, stages, slopes, differential});
}

int IdaRun::Solver::residual(realtype, N_Vector y, N_Vector slope, N_Vector r, void* user) {
  const auto& self = *static_cast<Solver*>(user);
  const auto out = span_of(r);
  const auto rate = span_of(slope);
  self.system.rates(span_of(y), out);
  bool is_finite = true;
  for (std::size_t k = 0; k < out.size(); ++k) {
    out[k] = (self.differential[k] != 0 ? rate[k] : 0.0) - out[k];
    is_finite = is_finite && std::isfinite(out[k]);
  }
  return is_finite ? 0 : 1;
}

int IdaRun::Solver::jacobian(realtype, realtype alpha, N_Vector y, N_Vector, N_Vector,
                             SUNMatrix matrix, void* user, N_Vector, N_Vector, N_Vector) {
  auto& self = *static_cast<Solver*>(user);
  self.system.jacobian(span_of(y), self.rates, self.entries);
  self.fill(matrix, alpha, false);
  return 0;
}

/// A margin of exactly zero does not hold yet: IDA shall see it as negative, not as a root at the
/// start, which it would put aside.
int IdaRun::Solver::roots(realtype t, N_Vector y, N_Vector, realtype* g, void* user) {
  const auto& self = *static_cast<Solver*>(user);
  const std::span<double> margins(g, self.margins.size());
  self.system.guards(t, span_of(y), margins);
  for (double& margin : margins) {
    if (margin == 0.0) margin = -1e-300;
  }
  return 0;
}

void IdaRun::Solver::complaint(int, const char*, const char* function, char* words, void* user) {
  static_cast<Solver*>(user)->last_words = fmt::format("{}: {}", function, words);
}

IdaRun::IdaRun(hybrid::System& system, const IdaSettings& settings, double time_s,
               std::vector<double> y)
    : solver_(std::make_unique<Solver>(system, settings, time_s, y)) {
  solver_->make_consistent();
}

IdaRun::~IdaRun() = default;

hybrid::Outcome IdaRun::advance(double until_s, hybrid::Observer& observer) {
  Solver& s = *solver_;
  while (true) {
    if (s.must_react || s.system.next_wake_s() <= s.time_s) {
      const hybrid::Outcome reacted = s.react_to_all(observer);
      if (reacted.ended != hybrid::Ended::AtTime) return reacted;
      if (observer.has_seen_enough()) return {hybrid::Ended::ByObserver, s.time_s, ""};
    }
    if (s.time_s >= until_s) return {hybrid::Ended::AtTime, s.time_s, ""};
    const double stop = std::min(until_s, s.system.next_wake_s());
    // IDA refuses a stretch it cannot tell from none; nothing happens within it either.
    if (stop - s.time_s < 1e-13 * std::max(1.0, std::abs(stop))) {
      s.time_s = stop;
      s.must_restart = true;
      continue;
    }
    s.must_react = s.step_to(stop, observer);
    if (observer.has_seen_enough()) return {hybrid::Ended::ByObserver, s.time_s, ""};
  }
}

void IdaRun::disturbed() {
  solver_->make_consistent();
  solver_->must_restart = true;
  solver_->must_react = true;
}

double IdaRun::time_s() const { return solver_->time_s; }
std::span<double> IdaRun::y() { return span_of(solver_->memory.y); }

IdaStatistics IdaRun::statistics() const {
  IdaStatistics sum = solver_->before;
  solver_->gather_statistics(sum);
  return sum;
}

}  // namespace tideover::reference
