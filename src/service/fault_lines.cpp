#include "service/fault_lines.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "question/fault_words.hpp"

namespace tideover::service {

using question::FaultEntry;
using question::FaultTable;
using question::Severity;

namespace {

constexpr std::size_t most_in_full = 12;  ///< of one severity

Tone tone_of(Severity severity) {
  if (severity <= Severity::Breaks) return Tone::Bad;
  return severity <= Severity::Shortens ? Tone::Warning : Tone::Plain;
}

void add_entry(const FaultEntry& entry, std::vector<Line>& lines) {
  lines.push_back({tone_of(entry.severity()), "  " + entry.fault.words()});
  lines.push_back({Tone::Quiet, "      " + entry.fault.means + "."});
  for (const std::string& sentence : question::sentences_of(entry)) {
    lines.push_back({Tone::Plain, "      " + sentence});
  }
}

void add_rest(std::span<const FaultEntry* const> rest, std::vector<Line>& lines) {
  if (rest.empty()) return;
  std::vector<std::string> names;
  for (const FaultEntry* const entry : rest) names.push_back(entry->fault.words());
  lines.push_back({Tone::Plain, fmt::format("  {}", fmt::join(names, "; "))});
}

void add_severity(const FaultTable& table, Severity severity, std::vector<Line>& lines) {
  const auto all = table.of(severity);
  if (all.empty()) return;
  lines.push_back({});
  lines.push_back({Tone::Strong, question::heading_of(severity, all.size())});
  lines.push_back({Tone::Quiet, fmt::format("Rule: {}.", question::rule_of(severity))});
  const bool in_full = severity <= Severity::Shortens;
  const std::size_t count = in_full ? std::min(all.size(), most_in_full) : 0;
  for (std::size_t k = 0; k < count; ++k) add_entry(*all[k], lines);
  if (in_full && count < all.size()) {
    lines.push_back({Tone::Quiet, "  Others, in short (all of it with --json or in the report):"});
  }
  add_rest(std::span(all).subspan(count), lines);
}

void add_hidden(const FaultTable& table, std::vector<Line>& lines) {
  const auto hidden = question::checks_of(table);
  lines.push_back({});
  if (hidden.empty()) {
    lines.push_back({Tone::Good, "No fault that matters stays hidden until the outage."});
    return;
  }
  lines.push_back({Tone::Strong, "Hidden: nothing shows of these until the outage fails"});
  for (const question::HiddenGroup& group : hidden) {
    lines.push_back({Tone::Warning, "  " + group.words});
    for (const FaultEntry* const entry : group.faults) {
      lines.push_back(
          {Tone::Plain, fmt::format("      {}{}", entry->fault.words(),
                                    entry->check ? " (" + entry->check->words + ")" : "")});
    }
  }
}

/// Without the cutting short of a long table.
void add_whole_entry(const FaultEntry& entry, std::vector<Line>& lines) {
  lines.push_back({tone_of(entry.severity()),
                   fmt::format("{}: {}", entry.fault.words(), in_words(entry.severity()))});
  lines.push_back({Tone::Quiet, fmt::format("Rule: {}.", question::rule_of(entry.severity()))});
  lines.push_back({Tone::Quiet, fmt::format("  {}.", entry.fault.means)});
  for (const question::FaultEffect& effect : entry.effects) {
    lines.push_back({Tone::Strong, fmt::format("  {}: {}", question::in_words(effect.onset),
                                               in_words(effect.judgement.severity))});
    for (const std::string& sentence : question::sentences_of(effect)) {
      lines.push_back({Tone::Plain, "      " + sentence});
    }
  }
  if (!entry.check) return;
  lines.push_back(
      {Tone::Warning, fmt::format("  Cheapest to find by: {} ({})",
                                  question::in_words(entry.check->effort), entry.check->words)});
}

void add_cautions(const std::vector<std::string>& cautions, std::vector<Line>& lines) {
  lines.push_back({});
  for (const std::string& caution : cautions) lines.push_back({Tone::Warning, caution});
}

}  // namespace

std::vector<Line> together_lines(const build::Build& build, const FaultTable& table) {
  std::vector<Line> lines{{Tone::Strong, build.title}};
  for (const FaultEntry& entry : table.entries) add_whole_entry(entry, lines);
  if (table.is_partial) lines.push_back({Tone::Warning, "Stopped before it was tried."});
  add_cautions(question::cautions_of_trials(), lines);
  return lines;
}

std::vector<Line> fault_lines(const build::Build& build, const FaultTable& table) {
  std::vector<Line> lines{{Tone::Strong, build.title}};
  lines.push_back({Tone::Plain, question::summary_of(table)});
  for (int k = 0; k <= static_cast<int>(Severity::Nothing); ++k) {
    add_severity(table, static_cast<Severity>(k), lines);
  }
  add_hidden(table, lines);
  add_cautions(question::cautions_of_faults(), lines);
  return lines;
}

}  // namespace tideover::service
