/// The fault table: every single fault of a build, what it does, and which of them nobody would
/// notice.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "question/fault_severity.hpp"
#include "question/hidden_fault.hpp"

namespace tideover::question {

/// A clearing of two runs, fuses at their quickest and at their slowest.
struct ClearingBand {
  std::string part;
  std::string words;
  bool is_for_good = false;
  quantity::Second earliest;
  std::optional<quantity::Second> latest;  ///< nothing: the slowest does not clear in the run
};

/// A fault at one onset.
struct FaultEffect {
  Onset onset{};
  FaultJudgement judgement;
  std::vector<LoadEffect> loads;
  std::vector<ClearingBand> clearings;
};

struct FaultEntry {
  Fault fault;
  std::vector<FaultEffect> effects;  ///< at the start, and in the outage where it can arise there
  /// The cheapest way to find it before an outage; nothing if there is none, or nothing to find.
  std::optional<Check> check;
  bool is_hidden = false;  ///< it matters in an outage and nothing shows before it

  /// The worse of the effects; there is at least one.
  [[nodiscard]] const FaultEffect& worst() const;
  [[nodiscard]] Severity severity() const { return worst().judgement.severity; }
};

struct FaultTable {
  std::vector<FaultEntry> entries;  ///< most dangerous first
  std::size_t faults = 0;           ///< of the build; more than entries if the user stopped
  SoundRun sound;
  bool is_partial = false;

  [[nodiscard]] std::vector<const FaultEntry*> hidden() const;
  [[nodiscard]] std::vector<const FaultEntry*> of(Severity severity) const;
};

/// Loads draw their mean. Each fault is run twice where it can arise in an outage, and each of
/// these again with the slowest fuses where the quickest open. The table is the same for any number
/// of `threads`; 0: one a core.
[[nodiscard]] FaultTable fault_table(const build::Build& build, base::Progress& progress,
                                     unsigned threads = 0);

/// One entry of the table: the fault, or several at once (double faults).
[[nodiscard]] FaultEntry try_fault(const build::Build& build, const SoundRun& sound,
                                   const Fault& fault, base::Progress& progress);

}  // namespace tideover::question
