/// How bad a fault is, in plain words with a written rule behind each.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "question/fault_run.hpp"

namespace tideover::question {

/// Worst first.
enum class Severity { Burns, Breaks, Loses, Shortens, Strains, Slows, Nothing };

/// "can burn", "breaks something", ...
[[nodiscard]] std::string_view in_words(Severity severity);
/// When a fault is given that severity: a sentence for the table's foot.
[[nodiscard]] std::string_view rule_of(Severity severity);

/// What one run of a fault comes to.
struct FaultJudgement {
  Severity severity = Severity::Nothing;
  /// Tells faults of one severity apart: the greater is worse. How far what is exceeded is
  /// exceeded, squared, times for how many seconds (an hour counts as all); the share of the outage
  /// that is not carried.
  double weight_share = 0.0;
  bool burns_with_mains = false;  ///< before the outage: nobody misses that
  bool was_followed = true;  ///< false: the run could not be continued, and more may be to tell
  std::vector<std::string> sentences;  ///< worst first
};

/// `build` is the sound one.
[[nodiscard]] FaultJudgement judge(const build::Build& build, const SoundRun& sound,
                                   const FaultRun& run);

}  // namespace tideover::question
