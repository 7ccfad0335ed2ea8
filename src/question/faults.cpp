#include "question/faults.hpp"

#include <algorithm>

#include "part/fuse/fuse.hpp"
#include "question/calm.hpp"
#include "run/batch.hpp"

namespace tideover::question {

using build::Build;
using part::FuseLaw;

namespace {

bool is_worse(const FaultJudgement& a, const FaultJudgement& b) {
  if (a.severity != b.severity) return a.severity < b.severity;
  return a.weight_share > b.weight_share;
}

void set_fuses(Build& build, FuseLaw law) {
  for (const auto& part : build.parts) {
    if (auto* const fuse = dynamic_cast<part::Fuse*>(part.get())) fuse->law = law;
  }
}

bool blows_a_fuse(const FaultRun& run) {
  return std::ranges::any_of(run.clearings, &Clearing::is_for_good);
}

std::vector<ClearingBand> bands_of(const FaultRun& quick, const FaultRun* slow) {
  std::vector<ClearingBand> bands;
  for (const Clearing& one : quick.clearings) {
    ClearingBand band{one.part, one.words, one.is_for_good, one.after, one.after};
    if (slow != nullptr) {
      const auto same = std::ranges::find_if(slow->clearings, [&](const Clearing& other) {
        return other.part == one.part && other.words == one.words;
      });
      band.latest = same == slow->clearings.end() ? std::nullopt : std::optional(same->after);
    }
    bands.push_back(std::move(band));
  }
  if (slow == nullptr) return bands;
  for (const Clearing& one : slow->clearings) {
    const bool is_known = std::ranges::any_of(bands, [&](const ClearingBand& band) {
      return band.part == one.part && band.words == one.words;
    });
    if (!is_known) bands.push_back({one.part, one.words, one.is_for_good, one.after, one.after});
  }
  return bands;
}

/// One fault on a build of its own.
class FaultTrial {
 public:
  FaultTrial(const Build& sound_build, Build& broken, const SoundRun& sound,
             base::Progress& progress)
      : sound_build_(sound_build), broken_(broken), sound_(sound), progress_(progress) {}

  /// The worse of quick and slow fuses; `first` is left the quick run of it.
  FaultEffect at(Onset onset, FaultRun& first) {
    set_fuses(broken_, FuseLaw::Earliest);
    first = fault_run(broken_, sound_, onset, FuseLaw::Earliest, progress_);
    FaultEffect effect{onset, judge(sound_build_, sound_, first), first.loads, {}};
    if (!blows_a_fuse(first)) {
      effect.clearings = bands_of(first, nullptr);
      return effect;
    }
    set_fuses(broken_, FuseLaw::Latest);
    const FaultRun slow = fault_run(broken_, sound_, onset, FuseLaw::Latest, progress_);
    FaultJudgement judged = judge(sound_build_, sound_, slow);
    effect.clearings = bands_of(first, &slow);
    if (is_worse(judged, effect.judgement)) {
      effect.judgement = std::move(judged);
      effect.loads = slow.loads;
    }
    return effect;
  }

 private:
  const Build& sound_build_;
  Build& broken_;
  const SoundRun& sound_;
  base::Progress& progress_;
};

/// Worth finding before the outage.
bool matters(Severity severity) { return severity <= Severity::Shortens; }

FaultEntry entry_of(const Build& sound_build, const Build& varied, const SoundRun& sound,
                    const Fault& fault, base::Progress& progress) {
  Build broken = varied.copy();
  FaultTrial trial(sound_build, broken, sound, progress);
  FaultEntry entry{.fault = fault, .effects = {}, .check = {}};
  FaultRun run;
  entry.effects.push_back(trial.at(Onset::Start, run));
  const bool started_whole = run.ended == hybrid::Ended::AtTime;
  if (matters(entry.severity()) && started_whole) {
    entry.check = cheapest_check(sound_build, sound, run, fault.looks);
    const bool shows = entry.check && entry.check->effort == Effort::Look;
    entry.is_hidden = !shows && !entry.worst().judgement.burns_with_mains;
  }
  if (fault.can_arise) entry.effects.push_back(trial.at(Onset::InOutage, run));
  return entry;
}

bool comes_first(const FaultEntry& a, const FaultEntry& b) {
  return is_worse(a.worst().judgement, b.worst().judgement);
}

}  // namespace

const FaultEffect& FaultEntry::worst() const {
  return *std::ranges::min_element(effects, [](const FaultEffect& a, const FaultEffect& b) {
    return is_worse(a.judgement, b.judgement);
  });
}

namespace {

template <class Meant>
std::vector<const FaultEntry*> chosen(const std::vector<FaultEntry>& entries,
                                      const Meant& is_meant) {
  std::vector<const FaultEntry*> found;
  for (const FaultEntry& entry : entries) {
    if (is_meant(entry)) found.push_back(&entry);
  }
  return found;
}

}  // namespace

std::vector<const FaultEntry*> FaultTable::hidden() const {
  return chosen(entries, [](const FaultEntry& entry) { return entry.is_hidden; });
}

std::vector<const FaultEntry*> FaultTable::of(Severity severity) const {
  return chosen(entries, [&](const FaultEntry& entry) { return entry.severity() == severity; });
}

FaultEntry try_fault(const Build& build, const SoundRun& sound, const Fault& fault,
                     base::Progress& progress) {
  build::Workpiece piece(build);
  piece.vary(fault.variation);
  return entry_of(build, piece.build(), sound, fault, progress);
}

FaultTable fault_table(const Build& build, base::Progress& progress, unsigned threads) {
  const Build calm = without_bursts(build);
  FaultTable table;
  table.sound = sound_run(calm, progress);
  const std::vector<Fault> faults = faults_of(calm);
  table.faults = faults.size();
  run::Batch<FaultEntry> batch(
      calm, faults.size(),
      [&](build::Workpiece& piece, std::size_t number, base::Progress& stop) {
        piece.vary(faults[number].variation);
        FaultEntry entry = entry_of(calm, piece.build(), table.sound, faults[number], stop);
        piece.take_back();
        return entry;
      },
      {.threads = threads, .doing = "trying one fault after another"});
  const std::size_t tried = batch.run(
      [&](std::size_t, FaultEntry&& entry) {
        table.entries.push_back(std::move(entry));
        return true;
      },
      progress);
  table.is_partial = tried < faults.size();
  std::ranges::stable_sort(table.entries, comes_first);
  return table;
}

}  // namespace tideover::question
