#include "service/coordination_lines.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "question/coordination_phrases.hpp"

namespace tideover::service {

using question::Coordination;
using question::First;
using question::LeadCover;
using question::Protection;

namespace {

Tone tone_of(const LeadCover& one) {
  switch (one.protection) {
    case Protection::None: return one.is_short() ? Tone::Warning : Tone::Bad;
    case Protection::Late:
    case Protection::Thin: return Tone::Bad;
    case Protection::Board: return Tone::Warning;
    case Protection::Limit:
    case Protection::Fuse: break;
  }
  return Tone::Good;
}

void add_lead(const LeadCover& one, std::vector<Line>& lines) {
  lines.push_back({tone_of(one), fmt::format("  leads.{}: {}", one.lead->name,
                                             sentence_of(one, one.shorts.front()))});
}

void add_sound(const Coordination& answer, Protection protection, const char* words,
               std::vector<Line>& lines) {
  std::vector<std::string> names;
  for (const LeadCover& one : answer.leads) {
    if (one.protection != protection) continue;
    names.push_back(fmt::format("{} ({})", one.lead->name, device_words(one.shorts.front())));
  }
  if (names.empty()) return;
  lines.push_back({Tone::Good, fmt::format("  {}: {}", words, fmt::join(names, ", "))});
}

void add_row(const question::FusesInARow& row, std::vector<Line>& lines) {
  lines.push_back({Tone::Strong, fmt::format("  {} -> {} -> {}", row.source->name,
                                             question::fuse_words(*row.race.before),
                                             question::fuse_words(*row.race.behind))});
  for (const question::RaceStretch& stretch : row.race.stretches) {
    const Tone tone = stretch.first == First::Before      ? Tone::Bad
                      : stretch.first == First::Uncertain ? Tone::Warning
                                                          : Tone::Good;
    lines.push_back({tone, "    " + stretch_words(row.race, stretch)});
  }
  const std::vector<std::string> sentences = sentences_of(row.race);
  if (row.race.stretches.empty()) lines.push_back({Tone::Quiet, "    " + sentences.front()});
  if (row.race.lets_through && row.race.melts_from) {
    lines.push_back({Tone::Quiet, "    " + sentences.back()});
  }
}

}  // namespace

std::vector<Line> coordination_lines(const Coordination& answer) {
  std::vector<Line> lines{{Tone::Strong, "What protects each lead, and which fuse goes first"}};
  for (const std::string& sentence : headline_of(answer)) {
    lines.push_back({Tone::Plain, "  " + sentence});
  }
  for (std::size_t k = 0; k < answer.leads.size(); ++k) {
    const std::string advice = advice_for(answer.leads[k]);
    if (advice.empty()) continue;
    add_lead(answer.leads[k], lines);
    // Said once of several in a row.
    const bool is_last = k + 1 == answer.leads.size() || advice_for(answer.leads[k + 1]) != advice;
    if (is_last) lines.push_back({Tone::Plain, "        To change: " + advice});
  }
  add_sound(answer, Protection::Limit, "kept small by its source", lines);
  add_sound(answer, Protection::Fuse, "protected by a fuse", lines);
  for (const question::FusesInARow& row : answer.rows) add_row(row, lines);
  for (const std::string& sentence : question::coordination_basis()) {
    lines.push_back({Tone::Quiet, "  " + sentence});
  }
  for (const std::string& caution : question::coordination_cautions()) {
    lines.push_back({Tone::Warning, "  Caution: " + caution});
  }
  return lines;
}

}  // namespace tideover::service
