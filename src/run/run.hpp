/// Runs a build through a timeline.
#pragma once

#include <functional>
#include <limits>
#include <memory>
#include <vector>

#include "base/progress.hpp"
#include "build/build.hpp"
#include "hybrid/integrator.hpp"
#include "run/record.hpp"

namespace tideover::run {

/// Under which circumstances a run takes place.
struct Circumstances {
  quantity::Temperature ambient = quantity::Temperature::of_celsius(25.0);
  bool cells_aged = false;  ///< the pack as it is at the end of its stated life
  bool has_meters = false;  ///< a channel for each test point of each part (meter_channel)
};

struct Settings {
  /// Of a step; where the energy books then stay open, the run is repeated with less.
  double relative_tolerance = 1e-4;
  bool steps_over_transients = true;  ///< where nothing feels them (hybrid/stepper.hpp)
  /// A stretch that takes more steps than this, because something in it switches on and off without
  /// end, is cut short and the timeline goes on (StretchSpan::ended_as_asked).
  long most_steps_a_stretch = std::numeric_limits<long>::max();
  bool keeps_samples = true;  ///< false: extremes, events and books only
  quantity::Second settles = quantity::Second::of_si(10.0 * 86400.0);
  /// A stretch that waits for an event is given up after this long.
  quantity::Second patience = quantity::Second::of_si(60.0 * 86400.0);
  /// Makes what carries the timeline out, at time zero from the settled unknowns; empty: the
  /// stepper. Tests put an independent solver here.
  std::function<std::unique_ptr<hybrid::Integrator>(hybrid::System&, std::vector<double>)>
      integrator = {};
};

/// The timeline carried out from the settled (or stated) start, at time zero.
/// A run that cannot be continued, or whose books do not close, says so in its outcome and keeps
/// what it knows; errors of our own throw base::ContractFault.
[[nodiscard]] Record run(const build::Build& build, const build::Timeline& timeline,
                         const Circumstances& circumstances, const Settings& settings,
                         base::Progress& progress);

/// The timeline used where a sheet has none: an hour of mains, none until all loads are lost and
/// the pack is cut off, mains until it is full again.
[[nodiscard]] build::Timeline usual_timeline();

}  // namespace tideover::run
