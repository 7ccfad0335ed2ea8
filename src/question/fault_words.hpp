/// The fault table in words, for the terminal, the report and the page alike.
#pragma once

#include <string>
#include <vector>

#include "question/faults.hpp"

namespace tideover::question {

/// "217 single faults tried, each through an hour of mains, ...: 12 can burn, 30 break something".
[[nodiscard]] std::string summary_of(const FaultTable& table);
/// "Can burn: 12 faults".
[[nodiscard]] std::string heading_of(Severity severity, std::size_t count);
/// "with the mains there and through an outage", "arising in the middle of an outage".
[[nodiscard]] std::string_view in_words(Onset onset);
/// All that an effect does, a sentence each, and what clears it and when.
[[nodiscard]] std::vector<std::string> sentences_of(const FaultEffect& effect);
/// What the worst effect does, a sentence each: what is exceeded, which loads are lost, what clears
/// and when; where the fault does something else in the outage, that too.
[[nodiscard]] std::vector<std::string> sentences_of(const FaultEntry& entry);

/// Hidden faults that one kind of check reveals.
struct HiddenGroup {
  std::string words;  ///< "pull the adapters for a minute and look: 4 min"
  std::vector<const FaultEntry*> faults;
};
/// Cheapest check first; those that none reveals at the end.
[[nodiscard]] std::vector<HiddenGroup> checks_of(const FaultTable& table);

/// What goes with every fault table, and with faults tried together.
[[nodiscard]] std::vector<std::string> cautions_of_faults();
[[nodiscard]] std::vector<std::string> cautions_of_trials();

}  // namespace tideover::question
