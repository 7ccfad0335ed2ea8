#include "papers/fault_rows.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "quantity/show.hpp"

namespace tideover::papers {

using quantity::Second;
using question::ClearingBand;
using question::FaultEffect;
using question::FaultEntry;
using question::LoadEffect;
using question::Onset;
using question::Severity;

namespace {

/// Of one fault no more is told on paper; the rest is in the table for programs.
constexpr std::size_t most_harms = 3;
std::string time_words(Second time) { return quantity::show(time, 2); }

enum class Fate { OutWithMains, LostAtOnce, LostEarly, AsWhenSound };

Fate fate_of(const LoadEffect& load) {
  if (load.is_lost_with_mains) return Fate::OutWithMains;
  if (!load.is_lost_early()) return Fate::AsWhenSound;
  return *load.lost_after < question::at_once ? Fate::LostAtOnce : Fate::LostEarly;
}

bool is_fed_too_high(const LoadEffect& load) { return load.above.si() > 0.0; }

/// "pack: discharge current" of "pack: discharge current 484 A where 60 A is the limit".
std::string subject_of(const std::string& sentence) {
  return sentence.substr(0, sentence.find_first_of("0123456789"));
}

/// Whether the column of devices tells it.
bool is_of_a_device(const std::string& sentence, const FaultEffect& effect) {
  return std::ranges::any_of(effect.loads, [&](const LoadEffect& load) {
    return sentence.starts_with(load.load + " is ") || sentence == load.load + " restarts";
  });
}

std::vector<std::string> harms_of(const FaultEffect& effect) {
  std::vector<std::string> harms;
  for (const std::string& sentence : effect.judgement.sentences) {
    if (!is_of_a_device(sentence, effect)) harms.push_back(sentence);
  }
  return harms;
}

const FaultEffect* other_effect(const FaultEntry& entry) {
  if (entry.effects.size() < 2) return nullptr;
  return &entry.effects[&entry.worst() == entry.effects.data() ? 1 : 0];
}

/// Equal for faults that belong into one row.
std::string key_of(const FaultEntry& entry) {
  const FaultEffect& worst = entry.worst();
  const FaultEffect* const other = other_effect(entry);
  std::string key = fmt::format("{}|", worst.onset == Onset::InOutage);
  key += other == nullptr ? "" : question::in_words(other->judgement.severity);
  for (const LoadEffect& load : worst.loads) {
    key += fmt::format("|{}{}{}", static_cast<int>(fate_of(load)), is_fed_too_high(load),
                       load.restarts > 0);
  }
  std::set<std::string> fuses;
  for (const ClearingBand& band : worst.clearings) {
    if (band.is_for_good) fuses.insert(band.part);
  }
  const auto harms = harms_of(worst);
  return key + fmt::format("|{}|{}", fmt::join(fuses, ","),
                           harms.empty() ? "" : subject_of(harms.front()));
}

/// Earliest and latest of several clearings; no latest: one of them need not clear.
struct Within {
  Second earliest;
  std::optional<Second> latest;
  void add(const ClearingBand& band) {
    earliest = std::min(earliest, band.earliest);
    latest = latest && band.latest ? std::optional(std::max(*latest, *band.latest)) : std::nullopt;
  }
};

std::string in_words(const Within& within) {
  const std::string earliest = time_words(within.earliest);
  if (!within.latest)
    return fmt::format("after {} at the earliest; at its slowest it does not", earliest);
  if (within.latest->si() <= 0.0) return "at once";
  const std::string latest = time_words(*within.latest);
  return earliest == latest ? "after " + latest : fmt::format("after {} to {}", earliest, latest);
}

/// What opens by itself before something breaks; converters that turn off follow from the rest.
bool protects(const build::Build& build, const ClearingBand& band) {
  if (band.is_for_good) return true;
  const part::Part* const part = build.find(band.part);
  if (part == nullptr) return false;
  const std::string& kind = part->description().name;
  return kind == "protection-board" || kind == "thermal-cut-out" || kind == "adapter" ||
         kind == "polarity-guard";
}

std::string mode_in_words(const std::string& mode, const std::vector<std::string>& parts,
                          const std::vector<std::string>& leads) {
  std::vector<std::string> named = parts;
  if (!leads.empty()) {
    named.push_back(
        fmt::format("{} {}", leads.size() == 1 ? "lead" : "leads", fmt::join(leads, ", ")));
  }
  return fmt::format("{}: {}", fmt::join(named, ", "), mode);
}

/// Of one device over the faults of a row.
std::string device_in_words(const FaultRow& row, std::size_t at) {
  const LoadEffect& load = row.worst().worst().loads[at];
  std::string words;
  switch (fate_of(load)) {
    case Fate::OutWithMains: words = "out though the mains is there"; break;
    case Fate::LostAtOnce: words = "lost as the mains goes"; break;
    case Fate::AsWhenSound: words = "as when sound"; break;
    case Fate::LostEarly: {
      Within within{*load.lost_after, load.lost_after};
      for (const FaultEntry* const entry : row.faults) {
        const Second after = *entry->worst().loads[at].lost_after;
        within.add({.part = {}, .words = {}, .earliest = after, .latest = after});
      }
      words = "lost " + in_words(within);
      words += load.sound_lost_after ? ", " + time_words(*load.sound_lost_after) + " when sound"
                                     : ", not at all when sound";
    }
  }
  if (is_fed_too_high(load)) {
    words += fmt::format("; up to {}, over its range for {}", quantity::show(load.highest, 3),
                         time_words(load.above));
  }
  if (load.restarts > 0) words += "; restarts";
  return words;
}

}  // namespace

bool FaultRow::has_fuse() const {
  return std::ranges::any_of(worst().worst().clearings, &ClearingBand::is_for_good);
}

std::vector<FaultRow> fault_rows(const question::FaultTable& table, Severity severity) {
  std::vector<FaultRow> rows;
  std::map<std::string, std::size_t> known;
  for (const FaultEntry& entry : table.entries) {
    if (entry.severity() != severity) continue;
    const auto [at, is_new] = known.try_emplace(key_of(entry), rows.size());
    if (is_new) rows.emplace_back();
    rows[at->second].faults.push_back(&entry);
  }
  return rows;
}

std::vector<std::string> modes_in_words(const std::vector<const FaultEntry*>& faults,
                                        Meaning meaning) {
  struct Named {
    std::string mode;
    std::vector<std::string> parts;
    std::vector<std::string> leads;
  };
  std::vector<Named> modes;
  for (const FaultEntry* const entry : faults) {
    const question::Fault& fault = entry->fault;
    const std::string mode =
        meaning == Meaning::Told ? fmt::format("{} ({})", fault.mode, fault.means) : fault.mode;
    auto at = std::ranges::find(modes, mode, &Named::mode);
    if (at == modes.end()) at = modes.insert(at, {mode, {}, {}});
    constexpr std::string_view of_leads = "leads.";
    if (fault.subject.starts_with(of_leads)) {
      at->leads.push_back(fault.subject.substr(of_leads.size()));
    } else {
      at->parts.push_back(fault.subject);
    }
  }
  std::vector<std::string> words;
  words.reserve(modes.size());
  for (const Named& one : modes) words.push_back(mode_in_words(one.mode, one.parts, one.leads));
  return words;
}

std::vector<std::string> harms_in_words(const FaultRow& row) {
  const FaultEntry& entry = row.worst();
  const FaultEffect& worst = entry.worst();
  const bool in_outage = worst.onset == Onset::InOutage;
  std::vector<std::string> harms = harms_of(worst);
  const bool differ = std::ranges::any_of(
      row.faults, [&](const FaultEntry* const other) { return harms_of(other->worst()) != harms; });
  if (harms.size() > most_harms) {
    const std::size_t more = harms.size() - most_harms;
    harms.resize(most_harms);
    harms.push_back(fmt::format("and {} more", more));
  }
  if (differ && !harms.empty()) harms.front() = "at worst, " + harms.front();
  if (in_outage) harms.insert(harms.begin(), "arising in the outage:");
  const FaultEffect* const other = other_effect(entry);
  if (other != nullptr && other->judgement.severity != worst.judgement.severity) {
    harms.push_back(fmt::format("{}: {}",
                                in_outage ? "there before the outage" : "arising in the outage",
                                question::in_words(other->judgement.severity)));
  }
  return harms;
}

std::vector<std::string> devices_in_words(const FaultRow& row) {
  const auto& loads = row.worst().worst().loads;
  std::vector<std::pair<std::string, std::vector<std::string>>> fates;
  for (std::size_t k = 0; k < loads.size(); ++k) {
    const std::string words = device_in_words(row, k);
    const auto at = std::ranges::find(fates, words, &decltype(fates)::value_type::first);
    if (at == fates.end()) {
      fates.push_back({words, {loads[k].load}});
    } else {
      at->second.push_back(loads[k].load);
    }
  }
  std::vector<std::string> lines;
  lines.reserve(fates.size());
  for (const auto& [words, names] : fates) {
    lines.push_back(fmt::format("{}: {}", fmt::join(names, ", "), words));
  }
  return lines;
}

std::vector<std::string> clearings_in_words(const build::Build& build, const FaultRow& row) {
  std::map<std::pair<bool, std::string>, Within> clears;  // fuses first
  for (const FaultEntry* const entry : row.faults) {
    for (const ClearingBand& band : entry->worst().clearings) {
      if (!protects(build, band)) continue;
      const std::string what = band.part + " " + band.words.substr(0, band.words.find(':'));
      const auto [at, is_new] =
          clears.try_emplace({!band.is_for_good, what}, Within{band.earliest, band.latest});
      if (!is_new) at->second.add(band);
    }
  }
  std::vector<std::string> lines;
  const bool wants_one = row.worst().severity() <= Severity::Breaks;
  if (wants_one && !row.has_fuse()) lines.emplace_back("no fuse");
  for (const auto& [what, within] : clears) lines.push_back(what.second + " " + in_words(within));
  return lines;
}

}  // namespace tideover::papers
