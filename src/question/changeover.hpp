/// The question of the milliseconds: what does every load see when its source changes, does it ride
/// through, and what capacitance would do where it does not?
#pragma once

#include <string>
#include <vector>

#include "question/hold_up.hpp"
#include "question/trial.hpp"

namespace tideover::question {

/// One change seen once: as it came in a timeline, or rehearsed at some draw of the loads.
struct ChangeView {
  std::string words;              ///< "as in storm, 30 min from its start", "every load at its ..."
  std::string brief;              ///< for the end of a line: "in storm", "highest draw"
  Trial trial;                    ///< an excerpt (question/excerpt.hpp); time zero is the change
  std::vector<Passage> passages;  ///< one a load, in the order of the sheet
};

/// One kind of change: however often it comes, its worst is told.
struct Changeover {
  SourceChange change;  ///< of the worst that the timelines hold
  std::string timeline;
  std::size_t times = 0;          ///< how often it comes in all timelines
  std::vector<ChangeView> views;  ///< the timeline's own first
  std::vector<HoldUp> hold_ups;   ///< of loads that do not ride through, or narrowly

  /// The worst of all views for the load that is number `load`.
  [[nodiscard]] const Passage& worst(std::size_t load) const;
  /// The view that is hardest on any load.
  [[nodiscard]] const ChangeView& hardest_view() const;
  [[nodiscard]] bool rides_through() const;
};

struct Changeovers {
  run::Circumstances circumstances;
  std::vector<AcceptedRange> loads;
  std::vector<Changeover> changes;    ///< in the order in which the timelines first hold them
  std::vector<std::string> troubles;  ///< runs that could not be carried to their end, in words
  bool is_partial = false;            ///< stopped by the user before all was done

  /// Every load through every change, and every run came to its end.
  [[nodiscard]] bool rides_through() const;
};

/// Runs every timeline of the sheet (or the usual one where there is none) in the middle of the
/// stated ambient, cells as they are; rehearses every kind of planned change with all loads at
/// their highest and at their lowest draw, where these differ; and seeks a capacitance for every
/// load that does not ride through one, or narrowly.
[[nodiscard]] Changeovers changeover(const build::Build& build, const run::Settings& settings,
                                     base::Progress& progress);

}  // namespace tideover::question
