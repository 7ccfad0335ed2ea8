/// One fault put through mains, outage and recharge, and what that did beside the sound build.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "part/fuse/fuse_curve.hpp"
#include "question/fault.hpp"
#include "question/outage.hpp"
#include "run/run.hpp"

namespace tideover::question {

/// When the fault is there.
enum class Onset {
  Start,     ///< a minute after the run begins; what cannot arise is there all along
  InOutage,  ///< it arises when half of the sound build's outage is over
};

/// What one load sees of a fault. Times count from the loss of mains.
struct LoadEffect {
  std::string load;
  bool is_lost_with_mains = false;  ///< not served while the mains is there, as it is when sound
  std::optional<quantity::Second> lost_after;  ///< in the outage; nothing: carried through
  std::optional<quantity::Second> sound_lost_after;
  /// Out at the end of the recharge, as it is not when sound: since so long after the return of
  /// mains, 0 if it never came back.
  std::optional<quantity::Second> out_after_return;
  int restarts = 0;       ///< more than when sound
  quantity::Volt lowest;  ///< at its input while the mains is there or it should be carried
  quantity::Volt highest;
  quantity::Second above;  ///< how long its input is over its range

  /// In the outage, a tenth sooner than when sound or where it is not lost at all then.
  [[nodiscard]] bool is_lost_early() const;
};

/// A load gone by then is lost as the mains goes.
inline constexpr quantity::Second at_once = quantity::Second::of_si(10.0);

/// A rating exceeded for longer than it stands, or further than in the sound build.
struct Harm {
  run::Overload overload;
  quantity::Dimension dimension;
  bool is_temperature = false;
};

/// A fuse, board or converter that put an end to something it does not end in the sound build.
struct Clearing {
  std::string part;
  std::string words;         ///< "blows"
  bool is_for_good = false;  ///< a fuse
  quantity::Second after;    ///< the fault, or the loss of mains where it was there from the start
};

struct FaultRun {
  Onset onset{};
  part::FuseLaw fuses = part::FuseLaw::Earliest;
  hybrid::Ended ended{};
  std::string why;               ///< of a run that did not get to its end
  quantity::Second loss;         ///< instant of the record at which the mains goes
  quantity::Second outage_ends;  ///< and at which it is back, all loads lost or the time over
  bool is_cut_short = false;  ///< something switched on and off without end; it was not followed on
  std::vector<LoadEffect> loads;
  std::vector<Harm> harms;  ///< what goes furthest beyond its limit first
  std::vector<Clearing> clearings;
  std::optional<quantity::Second> full_after;  ///< of the return of mains; see `full_share`
  std::optional<quantity::Second> sound_full_after;
  run::Record record;  ///< with its samples, for readings
};

/// What faults are compared with, and how long the outage is.
struct SoundRun {
  run::Record record;
  std::vector<Outage> outages;
  quantity::Second outage;  ///< until all loads are lost, at most `longest_outage`
  std::optional<quantity::Second> full_after;  ///< of the return of mains; see `full_share`
  /// How long the mains is back in the run of a fault: a quarter and two hours more than the sound
  /// pack takes to be full (`full_share`).
  quantity::Second recharge;
  quantity::Temperature ambient;
};

/// An hour of mains, an outage until all loads are lost or for six hours, mains until full.
inline constexpr quantity::Second before_outage = quantity::Second::of_si(3600.0);
inline constexpr quantity::Second longest_outage = quantity::Second::of_si(6.0 * 3600.0);
/// A pack counts as full again when its emptiest group holds this share of what it held when sound
/// and settled, whatever its charger believes: the last tenth is the charger's taper.
inline constexpr double full_share = 0.9;

[[nodiscard]] SoundRun sound_run(const build::Build& build, base::Progress& progress);

/// `build` has the fault in it. All its fuses keep to `fuses`.
[[nodiscard]] FaultRun fault_run(const build::Build& build, const SoundRun& sound, Onset onset,
                                 part::FuseLaw fuses, base::Progress& progress);

}  // namespace tideover::question
