/// Fuses as time-current bands, with what the leads behind them stand.
#pragma once

#include <vector>

#include "papers/story_plots.hpp"
#include "question/coordination.hpp"

namespace tideover::papers {

/// One figure for each row of two fuses, those of one kind behind the same fuse together, and one
/// for each fuse that stands alone: current across, opening time upwards, both logarithmic; bands
/// from the earliest to the latest, how long the thinnest lead stands a current that each fuse
/// protects, and the highest prospective current.
[[nodiscard]] std::vector<Story> coordination_figures(const question::Coordination& answer);

}  // namespace tideover::papers
