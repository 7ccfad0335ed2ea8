// How fast the stepper's error falls: with the step at each tableau's order, and with the
// tolerance.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "convergence/small_system.hpp"
#include "hybrid/stepper.hpp"
#include "network/network.hpp"
#include "part/capacitor_law.hpp"
#include "part/load/load_draw.hpp"

namespace {

using namespace tideover;
using tests::kaps_problem;
using tests::SmallSystem;

const std::array<const hybrid::Tableau*, 3> tableaux{&hybrid::tr_bdf2(), &hybrid::esdirk_32(),
                                                     &hybrid::esdirk_43()};

/// Largest error of Kaps' problem at t = 1 after `steps` equal steps from t = 0.
double fixed_step_error(double e, const hybrid::Tableau& tableau, int steps) {
  const SmallSystem system = kaps_problem(e);
  hybrid::Statistics statistics;
  hybrid::ImplicitStep step(system, tableau, 1e-13, statistics);
  std::vector<double> y{1.0, 1.0};
  std::vector<double> slope{e == 0.0 ? 0.0 : -2.0, -1.0};
  const double h = 1.0 / steps;
  for (int k = 0; k < steps; ++k) {
    const auto never = [](std::span<const double>, double) { return false; };
    if (!step.attempt(y, slope, h, hybrid::ImplicitStep::From::Smooth, never).converged) {
      return 1e300;
    }
    y.assign(step.value().begin(), step.value().end());
    slope.assign(step.slope().begin(), step.slope().end());
  }
  return std::max(std::abs(y[0] - std::exp(-2.0)), std::abs(y[1] - std::exp(-1.0)));
}

double slope_of(const std::vector<double>& x, const std::vector<double>& y) {
  double sx = 0, sy = 0, sxx = 0, sxy = 0;
  const auto n = static_cast<double>(x.size());
  for (std::size_t k = 0; k < x.size(); ++k) {
    sx += x[k];
    sy += y[k];
    sxx += x[k] * x[k];
    sxy += x[k] * y[k];
  }
  return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

struct Adaptive {
  double error = 0.0;
  hybrid::Statistics statistics;
};

Adaptive adaptive_error(double e, const hybrid::Tableau& tableau, double tolerance) {
  SmallSystem system = kaps_problem(e);
  hybrid::Stepper stepper(system, {.relative_tolerance = tolerance, .tableau = &tableau}, 0.0,
                          {1.0, 1.0});
  hybrid::Observer nobody;
  CHECK(stepper.advance(3.0, nobody).ended == hybrid::Ended::AtTime);
  return {std::max(std::abs(stepper.y()[0] - std::exp(-6.0)),
                   std::abs(stepper.y()[1] - std::exp(-3.0))),
          stepper.statistics()};
}

}  // namespace

TEST_CASE(
    "step halving: the error falls with the order the tableau claims, also for algebraic "
    "unknowns") {
  for (const double e : {1.0, 0.0}) {
    for (const hybrid::Tableau* tableau : tableaux) {
      CAPTURE(e);
      CAPTURE(std::string(tableau->name));
      const double coarse = fixed_step_error(e, *tableau, 16);
      const double fine = fixed_step_error(e, *tableau, 64);
      const double order = std::log(coarse / fine) / std::log(4.0);
      CAPTURE(order);
      CHECK(order > tableau->order - 0.25);
      CHECK(order < tableau->order + 1.0);
    }
  }
}

TEST_CASE(
    "tolerance: the error at the end falls in proportion from 1e-4 to 1e-9 and stays of its "
    "size") {
  for (const double e : {1.0, 0.0}) {
    for (const hybrid::Tableau* tableau : tableaux) {
      CAPTURE(e);
      CAPTURE(std::string(tableau->name));
      std::vector<double> tolerances;
      std::vector<double> errors;
      for (double tolerance = 1e-4; tolerance > 0.5e-9; tolerance *= 0.1) {
        const Adaptive adaptive = adaptive_error(e, *tableau, tolerance);
        CAPTURE(tolerance);
        CAPTURE(adaptive.error);
        // One-step errors add up over the steps: no more than all in one direction.
        CHECK(adaptive.error < tolerance * static_cast<double>(adaptive.statistics.steps));
        tolerances.push_back(std::log(tolerance));
        errors.push_back(std::log(adaptive.error));
      }
      // TR-BDF2 goes on with its second-order value but is judged as of third order: two thirds.
      const double proportion = slope_of(tolerances, errors);
      CAPTURE(proportion);
      CHECK(proportion > (tableau->order < 3 ? 0.6 : 0.75));
      CHECK(proportion < 1.3);
    }
  }
}

TEST_CASE(
    "stiffness: a fast unknown costs no more steps than an algebraic one and gives the same") {
  for (const hybrid::Tableau* tableau : tableaux) {
    CAPTURE(std::string(tableau->name));
    const Adaptive algebraic = adaptive_error(0.0, *tableau, 1e-6);
    for (const double e : {1e-3, 1e-6, 1e-9}) {
      CAPTURE(e);
      const Adaptive stiff = adaptive_error(e, *tableau, 1e-6);
      CHECK(stiff.error < 1e-4);
      CHECK(stiff.statistics.steps < 3 * algebraic.statistics.steps + 20);
    }
  }
}

TEST_CASE("constant power from a capacitor: v^2 = v0^2 - 2 P t / C to the tolerance asked for") {
  // Closed solution for no series resistance; 1e-9 ohm leaves 1e-11 of it.
  for (const double tolerance : {1e-4, 1e-6, 1e-8}) {
    CAPTURE(tolerance);
    network::Network net;
    const auto rail = net.add_electrical_node("rail");
    net.add(part::Capacitance{.capacitance_f = 0.1, .esr_ohm = 1e-9},
            {rail, network::reference_node}, {{{"voltage", 12.0, 12.0}}}, "capacitor");
    net.add(part::LoadDraw{.power_w = 5.0, .resistive_below_v = 2.0},
            {rail, network::reference_node}, "load");
    net.seal();
    hybrid::Stepper stepper(net, {.relative_tolerance = tolerance}, 0.0, net.start());
    hybrid::Observer nobody;
    CHECK(stepper.advance(1.2, nobody).ended == hybrid::Ended::AtTime);
    const double v = std::sqrt(12.0 * 12.0 - 2.0 * 5.0 * 1.2 / 0.1);
    // One-step errors add up over the steps: no more than all in one direction.
    const auto steps = static_cast<double>(stepper.statistics().steps);
    CHECK(std::abs(stepper.y()[1] - v) < steps * tolerance * 12.0);
  }
}
