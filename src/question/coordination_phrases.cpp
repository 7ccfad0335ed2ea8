#include "question/coordination_phrases.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

using quantity::show;

namespace {

std::string named(const LeadCover& cover) { return "leads." + cover.lead->name; }

std::string names_of(const Coordination& answer, Protection protection) {
  std::vector<std::string> names;
  for (const LeadCover& one : answer.leads) {
    if (one.protection == protection) names.push_back(one.lead->name);
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

std::size_t count_of(const Coordination& answer, Protection protection) {
  return static_cast<std::size_t>(
      std::ranges::count(answer.leads, protection, &LeadCover::protection));
}

std::string terminal_words(const build::TerminalName& name) {
  return name.part + "." + name.terminal;
}

std::string nothing_words(const LeadCover& cover, const LeadShort& one) {
  return fmt::format(
      "nothing opens a short circuit of {} from {}; the lead stands {} for {}. It is {} of wire, "
      "{}.",
      current_words(one.current), terminal_words(one.plus), show(one.judged_at),
      one.stands ? show(*one.stands) : "good", show(cover.unfused),
      cover.is_short()
          ? "no more than the " + show(finding::longest_unfused) + " usual before a fuse"
          : "and " + show(finding::longest_unfused) + " are the most before a fuse");
}

std::string opening_words(const LeadShort& one) {
  return fmt::format("{} {}; the lead stands that {}", show(one.judged_at),
                     one.opens ? "open it within " + show(*one.opens) : "need not open it",
                     one.stands ? "for " + show(*one.stands) : "for good");
}

std::string race_headline(const FuseRace& race) {
  const std::string& before = race.before->name;
  const std::string& behind = race.behind->name;
  if (race.stretches.empty()) {
    return fmt::format("No current that flows behind {} and {} is more than their ratings.", before,
                       behind);
  }
  if (race.is_selective()) {
    return fmt::format("{} goes before {} at every current, up to {}.", behind, before,
                       show(race.highest));
  }
  const First worst = race.is_the_wrong_way() ? First::Before : First::Uncertain;
  std::vector<std::string> ranges;
  for (const RaceStretch& one : race.stretches) {
    if (one.first == worst) ranges.push_back(show(one.from) + " to " + show(one.to));
  }
  return fmt::format(
      "A short circuit of {} behind {} {}.", fmt::join(ranges, " or of "), behind,
      worst == First::Before ? "opens " + before + " first" : "may open " + before + " as well");
}

}  // namespace

std::vector<std::string> headline_of(const Coordination& answer) {
  std::vector<std::string> lines;
  const auto add = [&](Protection protection, const char* words) {
    const std::size_t count = count_of(answer, protection);
    if (count == 0) return;
    lines.push_back(
        fmt::format(fmt::runtime(words), counted(count, "lead"), names_of(answer, protection)));
  };
  add(Protection::None, "Nothing opens a short circuit of {}: {}.");
  const bool is_any_long = std::ranges::any_of(answer.leads, [](const LeadCover& one) {
    return one.protection == Protection::None && !one.is_short();
  });
  if (!lines.empty() && !is_any_long) {
    lines.push_back(fmt::format(
        "None of them is longer than the {} usual before a fuse: kept apart and doubly insulated "
        "they may stay as they are.",
        show(finding::longest_unfused)));
  }
  add(Protection::Late, "Opened too late for the wire is a short circuit of {}: {}.");
  add(Protection::Thin, "More may flow for good than is carried by {}: {}.");
  add(Protection::Board, "A protection board alone, which is no fuse, guards {}: {}.");
  const std::size_t fused = count_of(answer, Protection::Fuse);
  const std::size_t limited = count_of(answer, Protection::Limit);
  if (fused > 0) lines.push_back(fmt::format("A fuse protects {}.", counted(fused, "lead")));
  if (limited > 0) {
    lines.push_back(fmt::format("The limit of what feeds it keeps a short circuit of {} small.",
                                counted(limited, "lead")));
  }
  for (const FusesInARow& row : answer.rows) lines.push_back(race_headline(row.race));
  return lines;
}

std::string_view in_words(Guard guard) {
  switch (guard) {
    case Guard::Nothing: return "nothing";
    case Guard::Fuse: return "fuse";
    case Guard::Board: return "board";
    case Guard::Limit: break;
  }
  return "own-limit";
}

std::string_view in_words(Protection protection) {
  switch (protection) {
    case Protection::None: return "none";
    case Protection::Late: return "late";
    case Protection::Thin: return "thin";
    case Protection::Board: return "board";
    case Protection::Limit: return "own-limit";
    case Protection::Fuse: break;
  }
  return "fuse";
}

std::string_view in_words(First first) {
  switch (first) {
    case First::Behind: return "behind";
    case First::Before: return "before";
    case First::Uncertain: return "uncertain";
    case First::None: break;
  }
  return "none";
}

std::string fuse_words(const part::Fuse& fuse) {
  return fmt::format("{}, {}, {}", fuse.name, show(fuse.rated.nominal()),
                     part::words_for_fuse_styles()[static_cast<std::size_t>(fuse.style)]);
}

std::string device_words(const LeadShort& one) {
  switch (one.guard) {
    case Guard::Nothing: return "nothing";
    case Guard::Fuse: return one.device->name;
    case Guard::Board: return one.device->name + ", a protection board and no fuse";
    case Guard::Limit: break;
  }
  return one.device->name + "'s own limit";
}

std::string current_words(const finding::ShortCurrent& current) {
  const std::string least = show(current.lowest);
  const std::string most = show(current.highest);
  return least == most ? most : least + " to " + most;
}

std::string sentence_of(const LeadCover& cover, const LeadShort& one) {
  switch (one.guard) {
    case Guard::Nothing: return nothing_words(cover, one);
    case Guard::Limit:
      return fmt::format("{} gives {} at most by itself; the lead carries {} for good.",
                         one.device->name, show(one.current.highest), show(cover.carries));
    case Guard::Board:
      return fmt::format(
          "{}, a protection board and no fuse, cuts a short circuit to the common behind it: {}.",
          one.device->name, opening_words(one));
    case Guard::Fuse: break;
  }
  return fmt::format("{} {} a short circuit of {} from {}: {}.", one.device->name,
                     one.is_in_time ? "opens" : "is to open", current_words(one.current),
                     terminal_words(one.plus), opening_words(one));
}

std::string advice_for(const LeadCover& cover) {
  switch (cover.protection) {
    case Protection::None:
      if (cover.is_short()) {
        return "Keep it short, away from every other lead and doubly insulated, or fuse it where "
               "it begins.";
      }
      return fmt::format("A fuse of {} or less where it begins, or {} at most.",
                         show(cover.carries), show(finding::longest_unfused));
    case Protection::Late: return "A smaller or quicker fuse, or thicker and shorter wire.";
    case Protection::Thin:
      return fmt::format("{} carries {}: a smaller fuse before it, or thicker wire.", named(cover),
                         show(cover.carries));
    case Protection::Board:
      return fmt::format("A fuse of {} or less before it: transistors fail shorted.",
                         show(cover.carries));
    case Protection::Limit:
    case Protection::Fuse: break;
  }
  return {};
}

std::string stretch_words(const FuseRace& race, const RaceStretch& stretch) {
  const std::string range = show(stretch.from) + " to " + show(stretch.to);
  switch (stretch.first) {
    case First::Behind: return range + ": " + race.behind->name + " first";
    case First::Before: return range + ": " + race.before->name + " first";
    case First::Uncertain: return range + ": either may go first";
    case First::None: break;
  }
  return range + ": neither opens";
}

std::vector<std::string> sentences_of(const FuseRace& race) {
  std::vector<std::string> stretches;
  for (const RaceStretch& one : race.stretches) stretches.push_back(stretch_words(race, one));
  std::vector<std::string> lines{race_headline(race)};
  if (!stretches.empty()) lines.push_back(fmt::format("{}.", fmt::join(stretches, "; ")));
  if (race.lets_through && race.melts_from) {
    lines.push_back(
        fmt::format("At {} {} lets {} through at the latest; {} takes {} or more until it melts.",
                    show(race.highest), race.behind->name, show(*race.lets_through),
                    race.before->name, show(*race.melts_from)));
  }
  return lines;
}

const std::vector<std::string>& coordination_cautions() {
  static const std::vector<std::string> all{
      "A shorted lead that nothing opens glows within seconds, and a lithium cell behind it may "
      "burn. Work on the pack with its fuse pulled, with insulated tools and without rings or "
      "watch.",
      "A protection board is no substitute for a fuse: its transistors fail shorted.",
      "Local codes and whoever is licensed where you are have the last word."};
  return all;
}

const std::vector<std::string>& coordination_basis() {
  static const std::vector<std::string> all{
      "Fuses open between the edges of their standard's gates, cold and in air of 23 degC; the arc "
      "is left out. Which goes first is sure only where the band of one ends before that of the "
      "other begins.",
      "A lead stands k2S2 of let-through energy within 5 s, 1.45 times its ampacity for an hour "
      "and its ampacity for good (IEC 60364-4-43, 433.1 and 434.5.2, from memory), in the warmest "
      "air the sheet states.",
      "A short circuit is taken between a new and full pack at the lead's near end and a worn and "
      "empty one at its far end, with a return as long as the way there."};
  return all;
}

}  // namespace tideover::question
