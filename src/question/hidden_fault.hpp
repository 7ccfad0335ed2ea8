/// Faults that nobody notices until the outage, and the cheapest way to find them before.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "question/fault_run.hpp"

namespace tideover::question {

/// Ways to look at a build, cheapest first; what each costs is assumed.
enum class Effort {
  Look,        ///< devices and lamps, the mains there
  Meter,       ///< at a test point that can be reached from outside
  PullPlug,    ///< all adapters off the mains for a minute; look
  PlugMeter,   ///< the same with a meter at a test point outside
  LookInside,  ///< what shows without a meter: a lead off, a fuse of the wrong sort
  OpenBox,     ///< a meter at a test point inside
  BoxMeter,    ///< inside, with the adapters off the mains for a minute
  RunDown,     ///< a whole outage on trial, the box closed
};
[[nodiscard]] std::string_view in_words(Effort effort);
/// Minutes of a practised builder's time. Assumed.
[[nodiscard]] quantity::Second cost_of(Effort effort);

struct Check {
  Effort effort{};
  std::string words;  ///< "radio is not served", "meter from plus to minus of up24: 19.2 V, 24 V
                      ///< when sound"
};

/// How long the adapters are off the mains in a trial of a minute.
inline constexpr quantity::Second trial_outage = quantity::Second::of_si(60.0);

/// The cheapest look at the build that tells the faulty one from the sound one before an outage
/// that matters; nothing if none of these does. `run` is of Onset::Start, with its record; `looks`
/// is what the open box shows (Fault::looks).
[[nodiscard]] std::optional<Check> cheapest_check(const build::Build& build, const SoundRun& sound,
                                                  const FaultRun& run, const std::string& looks);

}  // namespace tideover::question
