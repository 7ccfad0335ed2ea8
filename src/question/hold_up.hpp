/// The capacitance that would carry a load through a change of its sources: found by trying, and
/// beside it what the closed formula says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "question/fitted_capacitor.hpp"
#include "question/passage.hpp"
#include "question/rehearsal.hpp"
#include "run/run.hpp"

namespace tideover::question {

/// What is tried: from the smaller to the larger, to this share of the result.
inline constexpr double least_tried_f = 10e-6;
inline constexpr double most_tried_f = 0.1;
inline constexpr double tried_share = 0.02;

struct HoldUp {
  std::string load;
  Passage passage;      ///< of the load as the build stands, the worst of all rehearsals
  std::string present;  ///< a capacitor that stands there already; empty: one would be added
  /// The least capacitance with which the load rides through every rehearsal (one that rode
  /// narrowly: with reserve); nothing if none up to `most_tried_f` does.
  std::optional<quantity::Farad> found = {};
  Fitting fitting = Fitting::AtLoad;
  Passage with_found = {};  ///< the worst of all rehearsals with it
  /// C = 2 P t / (U0^2 - U1^2), for the time the load is without a source and does not ride of
  /// itself, less its own input capacitance; nothing where the formula cannot say.
  std::optional<quantity::Farad> closed = {};
  bool is_constant_power = true;            ///< of the load's draw, as the formula supposes
  quantity::Farad own = {};                 ///< the load's input capacitance
  quantity::Second bridged = {};            ///< t of the formula
  std::optional<quantity::Farad> buy = {};  ///< of E6, with a fifth less than printed still enough
  quantity::Volt rated = {};
  std::vector<std::string> remarks = {};  ///< why the two differ; what else would do
};

/// What the search is given.
struct HoldUpTask {
  const std::vector<Rehearsal>& rehearsals;
  const Passage& passage;           ///< the worst of the load
  std::vector<std::string> relays;  ///< that act in the course of the change
  run::Circumstances circumstances;
};

/// Runs every rehearsal some dozens of times. Nothing once the user has asked to stop.
[[nodiscard]] std::optional<HoldUp> find_hold_up(const HoldUpTask& task,
                                                 const run::Settings& settings,
                                                 base::Progress& progress);

/// The closed formula for what `passage` says; nothing where the voltage before the change, less
/// the step across the capacitor's own resistance, is not above the lowest accepted.
[[nodiscard]] std::optional<quantity::Farad> closed_hold_up(const Passage& passage,
                                                            quantity::Second bridged);

/// The one that is harder on the load: it fails, is longer out of its range, or dips deeper.
[[nodiscard]] const Passage& worse(const Passage& a, const Passage& b);

}  // namespace tideover::question
