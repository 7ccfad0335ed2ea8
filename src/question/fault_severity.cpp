#include "question/fault_severity.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "quantity/show.hpp"

namespace tideover::question {

using build::Build;
using quantity::Second;
using run::Overload;

namespace {

struct Words {
  std::string_view name;
  std::string_view rule;
};

constexpr std::array<Words, 7> words_of{{
    {"can burn",
     "a conductor passes the short-circuit temperature of its insulation (160 degC, IEC 60364-4-43 "
     "for PVC), a poor contact or a short gives off more than 5 W for a minute, a fuse has to "
     "break "
     "more than it can, or the cells are charged too high, too hot, too cold, or driven beyond "
     "their current"},
    {"breaks something",
     "a part, a device or a cell is beyond another of its ratings for longer than it stands, or "
     "fed the wrong way round"},
    {"loses a device",
     "a device is out while the mains is there, or within ten seconds of its loss"},
    {"shortens the outage",
     "a device is lost a tenth earlier than in the sound build, or restarts where it did not"},
    {"strains a part",
     "an adapter or a converter works at its own limit or shuts down by heat, or a fuse carries "
     "more than it should for good: what they are made to stand"},
    {"slows the recharge",
     "the pack is back at nine tenths of its charge a fifth later than in the sound build, or not "
     "at all while the mains is there"},
    {"nothing seen", "none of these"},
}};

/// PVC at the end of a short circuit, IEC 60364-4-43 table 43A (from memory).
constexpr double insulation_gives_c = 160.0;
/// Shorter than this no heat leaves a conductor: IEC 60364-4-43, 434.5.2.
constexpr double adiabatic_s = 5.0;
constexpr double hour_s = 3600.0;
/// A recharge that is longer by less than this is not slower.
constexpr double slower_by_s = 600.0;

bool is_any_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::ranges::find(words, word) != words.end();
}

const build::Lead* lead_of(const Build& build, const std::string& part) {
  if (!part.starts_with("leads.")) return nullptr;
  const auto at = std::ranges::find(build.leads, part.substr(6), &build::Lead::name);
  return at == build.leads.end() ? nullptr : &*at;
}

bool burns(const build::Lead& lead, const Overload& overload, quantity::Temperature ambient) {
  const double mean_a = std::abs(overload.mean_si);
  if (overload.longest.si() < adiabatic_s) {
    return mean_a * mean_a * overload.longest.si() > lead.wire.withstand().si();
  }
  const auto reached = lead.wire.temperature_at(quantity::Ampere::of_si(mean_a), ambient);
  return reached > quantity::Temperature::of_celsius(insulation_gives_c);
}

Severity severity_of(const Build& build, const Harm& harm, quantity::Temperature ambient) {
  const Overload& overload = harm.overload;
  if (const build::Lead* const lead = lead_of(build, overload.part)) {
    return burns(*lead, overload, ambient) ? Severity::Burns : Severity::Breaks;
  }
  if (overload.part == "defects" || overload.rating == "breaking capacity") return Severity::Burns;
  const part::Part* const part = build.find(overload.part);
  const std::string kind = part == nullptr ? "" : part->description().name;
  if (overload.is_polarity) return Severity::Breaks;
  if (kind == "pack" &&
      is_any_of(overload.rating,
                {"discharge current", "charge current", "lowest temperature to charge at",
                 "highest temperature to charge at", "highest temperature"})) {
    return Severity::Burns;
  }
  if (kind == "pack" && overload.rating.starts_with("highest cell voltage")) return Severity::Burns;
  const bool is_own_limit = kind == "adapter" ||
                            (kind == "fuse" && overload.rating == "continuous current") ||
                            (kind == "converter" && overload.rating == "rated current") ||
                            overload.rating == "thermal shutdown";
  return is_own_limit ? Severity::Strains : Severity::Breaks;
}

/// A peak at the beginning of what lasts says little of it.
bool has_peak(const Overload& overload) {
  constexpr double lasts_s = 10.0;
  return overload.is_upper && overload.longest.si() > lasts_s &&
         std::abs(overload.mean_si) < 0.8 * std::abs(overload.worst.value_si);
}

/// How many times its limit; of what is limited from below, nothing more than that it is passed.
double excess_of(const Overload& overload, double value_si) {
  if (!overload.is_upper || overload.limit_si == 0.0) return 1.0;
  return std::abs(value_si / overload.limit_si);
}

double weight_of(const Overload& overload) {
  // Cells give what they have within a minute into a short circuit: that it ends is no comfort.
  const bool is_of_cells = overload.rating == "discharge current";
  const bool by_mean = has_peak(overload) && !is_of_cells;
  const double excess = excess_of(overload, by_mean ? overload.mean_si : overload.worst.value_si);
  const double seconds = is_of_cells ? hour_s : std::min(overload.longest.si(), hour_s);
  return excess * excess * seconds;
}

std::string time_words(Second time) { return quantity::show(time, 2); }

std::string sentence_of(const Harm& harm) {
  const Overload& overload = harm.overload;
  const quantity::Measure measure{harm.dimension, harm.is_temperature};
  const double worst_si = overload.worst.value_si;
  const bool is_nothing =
      !overload.is_upper && std::abs(worst_si) < 1e-3 * std::abs(overload.limit_si);
  std::string reached = quantity::show_si(is_nothing ? 0.0 : worst_si, measure, 3);
  if (has_peak(overload) && !harm.is_temperature) {
    reached = fmt::format("{} on average, {} at most,",
                          quantity::show_si(overload.mean_si, measure, 3), reached);
  }
  const std::string limit = quantity::show_si(overload.limit_si, measure, 3);
  const std::string whose = overload.part == "defects" ? "" : overload.part + ": ";
  if (overload.is_polarity) return whose + "fed the wrong way round, " + reached;
  return fmt::format("{}{} {} where {} is the limit, for {}", whose, overload.rating, reached,
                     limit, time_words(overload.longest));
}

std::string sentence_of(const LoadEffect& load) {
  if (load.is_lost_with_mains) return load.load + " is out though the mains is there";
  const double lost_s = load.lost_after ? load.lost_after->si() : 0.0;
  const std::string sound = load.sound_lost_after
                                ? ", " + time_words(*load.sound_lost_after) + " when sound"
                                : ", not at all when sound";
  if (lost_s < at_once.si()) return load.load + " is lost as the mains goes";
  return fmt::format("{} is lost after {}{}", load.load, time_words(*load.lost_after), sound);
}

/// Of two ratings of a part that one cause exceeds, the first is told and the second is not.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> says_more{{
    {"highest temperature", "highest temperature to charge at"},
    {"rated current", "rating left at its temperature"},
    {"rated current", "body at full rating"},
}};

class Judging {
 public:
  Judging(const Build& build, const SoundRun& sound, const FaultRun& run)
      : build_(build), sound_(sound), run_(run) {}

  FaultJudgement judge() {
    for (const Harm& harm : run_.harms) {
      if (is_outdone(harm)) continue;
      const Severity severity = severity_of(build_, harm, sound_.ambient);
      if (severity == Severity::Burns && harm.overload.first < run_.loss) burns_before_ = true;
      add(severity, weight_of(harm.overload), sentence_of(harm));
    }
    for (const LoadEffect& load : run_.loads) look_at(load);
    look_at_recharge();
    std::ranges::stable_sort(told_, [](const Told& a, const Told& b) {
      return a.severity != b.severity ? a.severity < b.severity : a.weight > b.weight;
    });
    FaultJudgement judged;
    judged.burns_with_mains = burns_before_;
    if (!told_.empty()) {
      judged.severity = told_.front().severity;
      judged.weight_share = told_.front().weight;
    }
    for (Told& one : told_) judged.sentences.push_back(std::move(one.sentence));
    add_outcome(judged);
    return judged;
  }

 private:
  [[nodiscard]] bool is_told(const std::string& part, std::string_view rating) const {
    return std::ranges::any_of(run_.harms, [&](const Harm& other) {
      return other.overload.part == part && other.overload.rating == rating;
    });
  }

  /// By the same rating of another group of the part, or by one that says more.
  [[nodiscard]] bool is_outdone(const Harm& harm) const {
    const Overload& overload = harm.overload;
    const auto outdoes = [&](const Harm& other) {
      return other.overload.part == overload.part && other.overload.rating == overload.rating;
    };
    if (&*std::ranges::find_if(run_.harms, outdoes) != &harm) return true;
    return std::ranges::any_of(says_more, [&](const auto& pair) {
      return overload.rating == pair.second && is_told(overload.part, pair.first);
    });
  }

  struct Told {
    Severity severity;
    double weight;
    std::string sentence;
  };
  void add(Severity severity, double weight, std::string sentence) {
    told_.push_back({severity, weight, std::move(sentence)});
  }

  void look_at(const LoadEffect& load) {
    const double sound_s = load.sound_lost_after.value_or(sound_.outage).si();
    const double now_s = load.lost_after.value_or(sound_.outage).si();
    const double missing = sound_s > 0.0 ? 1.0 - std::min(1.0, now_s / sound_s) : 0.0;
    if (load.is_lost_with_mains) {
      add(Severity::Loses, 2.0, sentence_of(load));
    } else if (load.lost_after && missing > 0.1) {
      add(now_s < at_once.si() ? Severity::Loses : Severity::Shortens, missing, sentence_of(load));
    } else if (load.restarts > 0) {
      add(Severity::Shortens, 0.0, fmt::format("{} restarts", load.load));
    }
    if (load.out_after_return && !load.is_lost_with_mains) {
      const double back_s = load.out_after_return->si();
      add(Severity::Loses, 1.0,
          back_s < at_once.si() ? load.load + " does not come back with the mains"
                                : fmt::format("{} is out {} after the mains is back", load.load,
                                              time_words(*load.out_after_return)));
    }
  }

  void look_at_recharge() {
    if (!run_.sound_full_after) return;
    if (!run_.full_after) {
      add(Severity::Slows, 1.0, "the pack does not get full again");
    } else if (run_.full_after->si() > 1.2 * run_.sound_full_after->si() + slower_by_s) {
      add(Severity::Slows, 0.5,
          fmt::format("the pack is nine tenths full again after {}, {} when sound",
                      time_words(*run_.full_after), time_words(*run_.sound_full_after)));
    }
  }

  void add_outcome(FaultJudgement& judged) const {
    if (run_.is_cut_short) {
      judged.sentences.emplace_back(
          "something switches on and off without end, and was not followed to the end");
    }
    if (run_.ended == hybrid::Ended::AtTime) return;
    judged.was_followed = false;
    judged.sentences.push_back("could not be followed to its end: " + run_.why);
  }

  const Build& build_;
  const SoundRun& sound_;
  const FaultRun& run_;
  std::vector<Told> told_;
  bool burns_before_ = false;
};

}  // namespace

std::string_view in_words(Severity severity) {
  return words_of[static_cast<std::size_t>(severity)].name;
}
std::string_view rule_of(Severity severity) {
  return words_of[static_cast<std::size_t>(severity)].rule;
}

FaultJudgement judge(const Build& build, const SoundRun& sound, const FaultRun& run) {
  return Judging(build, sound, run).judge();
}

}  // namespace tideover::question
