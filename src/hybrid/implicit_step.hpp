/// One step of an implicit method: its stages solved by Newton's iteration, its error judged.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "hybrid/outcome.hpp"
#include "hybrid/step.hpp"
#include "hybrid/system.hpp"
#include "numeric/elimination.hpp"

namespace tideover::hybrid {

class ImplicitStep {
 public:
  /// `relative`: error allowed in a step, against max(|y|, scale) of each unknown.
  ImplicitStep(const System& system, const Tableau& tableau, double relative,
               Statistics& statistics);

  /// Forgets the matrix: to be called when a mode has changed.
  void modes_changed() { jacobian_exists_ = false; }

  /// Solves the algebraic unknowns of y with the differential ones held. False if Newton failed;
  /// y then holds its last iterate.
  bool solve_algebraic(std::span<double> y);

  struct Attempt {
    bool converged = false;
    /// Instant, as a share of the step, of the first solved stage that `ends` held for; 0: none.
    /// Less than 1: nothing behind it was solved or judged.
    double ended_at = 0.0;
    double error = 0.0;  ///< largest error over what is allowed; <= 1 is good
  };
  /// Asked of each stage as it is solved, with its instant as a share of the step, whether what
  /// lies behind it is of no interest.
  using Ends = std::function<bool(std::span<const double> stage, double share)>;
  /// What the beginning of a step is.
  enum class From {
    Smooth,  ///< the end of a step: the slope there is that of the solution
    Event,   ///< modes have just changed: a transient begins, to be followed
    Mild,    ///< a transient begins that may be stepped over if it is gone by the end of the step
  };
  /// Tries a step of length h from y with slopes `slope` (dy/dt of differential unknowns).
  Attempt attempt(std::span<const double> y, std::span<const double> slope, double h, From from,
                  const Ends& ends);

  /// To be told that the last attempt stands: the next one's first guess builds on it.
  void accepted();
  /// Of the last converged attempt.
  [[nodiscard]] Step step(double begin_s) const;
  [[nodiscard]] std::span<const double> value() const { return stages_.back(); }
  [[nodiscard]] std::span<const double> slope() const { return slopes_.back(); }
  /// The unknown that judged the last attempt worst.
  [[nodiscard]] int worst_unknown() const { return worst_; }

 private:
  void refresh_jacobian(std::span<const double> y);
  void evaluate(std::span<const double> y);
  bool factor(double gamma_h);
  bool solve(std::span<double> y, double gamma_h, double allowed);
  bool solve_stage(std::size_t stage, double h);
  Attempt solve_stages(double h, const Ends& ends);
  void begin_stage(std::size_t stage, double h);
  void end_stage(std::size_t stage, double gamma_h);
  void guess(std::size_t stage, double h);
  void guess_by_drift(double span_s);
  void guess_by_parabola(std::size_t stage, std::size_t first, std::size_t middle,
                         std::size_t last);
  double correction(std::span<const double> y, double gamma_h);
  void take_correction(std::span<double> y, double share);
  void give_back_correction(std::span<double> y, double share);
  double judge(double h, From from);
  void weigh(std::span<const double> y);

  const System& system_;
  const Tableau& smooth_tableau_;
  const Tableau& event_tableau_;  ///< of the same gamma
  const Tableau* tableau_;        ///< of the present attempt
  double relative_;
  Statistics& statistics_;
  std::span<const char> differential_;
  std::span<const double> scale_;
  std::span<const double> stride_;
  std::vector<int> strided_;  ///< unknowns with a finite stride

  numeric::Elimination elimination_;
  std::vector<double> jacobian_;
  std::vector<double> matrix_;
  std::vector<int> states_;          ///< indices of differential unknowns
  std::vector<int> state_diagonal_;  ///< places of their diagonal entries
  std::vector<double> mass_;         ///< 1 for them, 0 for algebraic ones
  bool jacobian_exists_ = false;
  double factored_for_ = 0.0;  ///< gamma h of the factors in elimination_; 0: none
  double contraction_ = 1.0;   ///< last known rate of Newton's convergence

  double length_s_ = 0.0;
  bool was_mild_ = false;  ///< what the present attempt began as
  std::vector<std::vector<double>> stages_;
  std::vector<std::vector<double>> slopes_;
  std::vector<double> base_;  ///< known part of the present stage
  std::vector<double> rates_;
  std::vector<double> delta_;   ///< a correction still to be taken
  std::vector<double> taken_;   ///< the one taken last
  std::vector<double> weight_;  ///< one over what an unknown may be wrong by
  std::vector<double> drift_;   ///< of all unknowns over the end of the last accepted step
  int worst_ = 0;
  int failures_ = 0;  ///< attempts in a row that found no solution
};

}  // namespace tideover::hybrid
