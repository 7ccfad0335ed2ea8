#include "question/fault_words.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

namespace {

constexpr int severities = static_cast<int>(Severity::Nothing) + 1;

/// Of one effect no more is told; the rest is in the table for programs.
constexpr std::size_t most_sentences = 4;

/// What comes later than this is a pack that is empty, not a fault that is cleared.
constexpr double clears_within_s = 10.0;

/// A fuse, or a board that cuts because of the fault.
bool is_of_the_fault(const ClearingBand& band) {
  return band.is_for_good ||
         (band.words.starts_with("cuts") && band.earliest.si() < clears_within_s);
}

std::string in_words(const ClearingBand& band) {
  if (band.latest && band.latest->si() <= 0.0)
    return fmt::format("{} {} at once", band.part, band.words);
  const std::string earliest = quantity::show(band.earliest, 2);
  if (!band.latest) {
    return fmt::format("{} {} after {} at the earliest; its slowest does not", band.part,
                       band.words, earliest);
  }
  const std::string latest = quantity::show(*band.latest, 2);
  if (latest == earliest) return fmt::format("{} {} after {}", band.part, band.words, earliest);
  return fmt::format("{} {} after {} to {}", band.part, band.words, earliest, latest);
}

void add_clearings(const FaultEffect& effect, std::vector<std::string>& all) {
  for (const ClearingBand& band : effect.clearings) {
    if (is_of_the_fault(band)) all.push_back(in_words(band));
  }
}

std::vector<std::string> short_sentences_of(const FaultEffect& effect) {
  std::vector<std::string> all = effect.judgement.sentences;
  if (all.size() > most_sentences) {
    const std::size_t more = all.size() - most_sentences;
    all.resize(most_sentences);
    all.push_back(fmt::format("and {} more", more));
  }
  add_clearings(effect, all);
  return all;
}

/// "12 can burn, 1 breaks something": how a count goes on.
std::string in_count(std::size_t count, Severity severity) {
  std::string words(in_words(severity));
  const auto space = words.find(' ');
  const bool has_s = count != 1 && space != std::string::npos && words[space - 1] == 's';
  if (has_s && severity != Severity::Nothing) words.erase(space - 1, 1);
  return fmt::format("{} {}", count, words);
}

}  // namespace

std::string summary_of(const FaultTable& table) {
  std::vector<std::string> counts;
  for (int k = 0; k < severities; ++k) {
    const auto severity = static_cast<Severity>(k);
    const auto count = std::ranges::count(table.entries, severity, &FaultEntry::severity);
    if (count > 0) counts.push_back(in_count(static_cast<std::size_t>(count), severity));
  }
  const std::string tried =
      table.is_partial ? fmt::format("{} of {} single faults", table.entries.size(), table.faults)
                       : fmt::format("{} single faults", table.faults);
  return fmt::format(
      "{} tried, each through an hour of mains, an outage of {} and the recharge, at {} and with "
      "mean draws: {}.",
      tried, quantity::show(table.sound.outage, 2), quantity::show(table.sound.ambient),
      fmt::join(counts, ", "));
}

std::string heading_of(Severity severity, std::size_t count) {
  return fmt::format("{}: {}", capitalised(in_words(severity)), counted(count, "fault"));
}

std::string_view in_words(Onset onset) {
  return onset == Onset::Start ? "with the mains there and through an outage"
                               : "arising in the middle of an outage";
}

std::vector<std::string> sentences_of(const FaultEffect& effect) {
  std::vector<std::string> all = effect.judgement.sentences;
  add_clearings(effect, all);
  return all;
}

std::vector<std::string> sentences_of(const FaultEntry& entry) {
  const FaultEffect& worst = entry.worst();
  std::vector<std::string> all = short_sentences_of(worst);
  if (entry.effects.size() > 1) {
    const bool in_outage = worst.onset == Onset::InOutage;
    const FaultEffect& other = entry.effects[in_outage ? 0 : 1];
    if (other.judgement.severity != worst.judgement.severity) {
      all.push_back(fmt::format("{}: {}",
                                in_outage ? "with the mains there" : "arising in the outage",
                                in_words(other.judgement.severity)));
    }
    if (in_outage) all.insert(all.begin(), "arising in the outage:");
  }
  return all;
}

std::vector<HiddenGroup> checks_of(const FaultTable& table) {
  std::vector<HiddenGroup> groups;
  for (int k = 0; k <= static_cast<int>(Effort::RunDown) + 1; ++k) {
    const bool is_none = k > static_cast<int>(Effort::RunDown);
    const auto effort = static_cast<Effort>(k);
    HiddenGroup group;
    for (const FaultEntry* const entry : table.hidden()) {
      const bool belongs = is_none ? !entry->check : entry->check && entry->check->effort == effort;
      if (belongs) group.faults.push_back(entry);
    }
    if (group.faults.empty()) continue;
    group.words =
        is_none ? std::string("nothing tried here finds these before they matter")
                : fmt::format("{} (some {})", in_words(effort), quantity::show(cost_of(effort), 2));
    groups.push_back(std::move(group));
  }
  return groups;
}

std::vector<std::string> cautions_of_faults() {
  std::vector<std::string> all{
      "One fault at a time: two at once are not in it. --together tries those that you name."};
  for (std::string& one : cautions_of_trials()) all.push_back(std::move(one));
  return all;
}

std::vector<std::string> cautions_of_trials() {
  return {
      "All of this is on paper, and what a burning part does to its neighbours is not in it. Never "
      "try a short circuit or an overcharge on a real pack.",
      "A lithium pack that was shorted, overcharged, emptied below its limit or dented goes out of "
      "the house and to disposal; what is allowed and who may do it, local codes say.",
  };
}

}  // namespace tideover::question
