#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "papers/fault_rows.hpp"
#include "papers/report_sections.hpp"
#include "quantity/show.hpp"
#include "question/fault_words.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using question::FaultEntry;
using question::FaultTable;
using question::Severity;

namespace {

using Entries = std::vector<const FaultEntry*>;

std::string cell_of(const std::vector<std::string>& lines) {
  return lines.empty() ? "\u2013" : fmt::format("{}", fmt::join(lines, "\n"));
}

/// The first thing to know: how many can burn, and how many of them no fuse opens.
std::string headline_of(const FaultTable& table) {
  std::size_t burning = 0;
  std::size_t bare = 0;
  for (const FaultRow& row : fault_rows(table, Severity::Burns)) {
    burning += row.faults.size();
    bare += row.has_fuse() ? 0 : row.faults.size();
  }
  const std::string tried = question::counted(table.entries.size(), "fault");
  if (burning == 0) return fmt::format("Of {} tried one at a time, none can burn.", tried);
  const std::string those = bare == 0         ? "a fuse opens every one of them"
                            : bare == burning ? "no fuse opens any of them"
                                              : fmt::format("no fuse opens {} of them", bare);
  return fmt::format("Of {} tried one at a time, {} can burn: {}.", tried, burning, those);
}

/// What no fuse opens first.
void write_rows(const build::Build& build, const FaultTable& faults, Severity severity,
                Page& page) {
  const auto rows = fault_rows(faults, severity);
  if (rows.empty()) return;
  const std::size_t count = faults.of(severity).size();
  const std::string heading = question::heading_of(severity, count);
  page.heading(heading);
  page.paragraph(question::capitalised(question::rule_of(severity)) + ".");
  Table table{
      .caption = fmt::format("Faults that come to \"{}\": equal effects share a row, the most "
                             "dangerous first.",
                             question::in_words(severity)),
      .columns = {{"Fault"},
                  {"What it does"},
                  {"What each device sees"},
                  {"What clears, and when"}},
      .style = Table::Style::Prose};
  const bool is_dangerous = severity <= Severity::Breaks;
  RowGroup bare{.title = is_dangerous ? "No fuse opens these" : "", .rows = {}};
  RowGroup fused{.title = is_dangerous ? "A fuse opens these" : "", .rows = {}};
  for (const FaultRow& row : rows) {
    RowGroup& group = is_dangerous && row.has_fuse() ? fused : bare;
    group.rows.push_back({cell_of(modes_in_words(row.faults, Meaning::Told)),
                          cell_of(harms_in_words(row)), cell_of(devices_in_words(row)),
                          cell_of(clearings_in_words(build, row))});
  }
  for (RowGroup* const group : {&bare, &fused}) {
    if (!group->rows.empty()) table.groups.push_back(std::move(*group));
  }
  page.table(table);
}

/// What is no danger and loses no device, in a paragraph.
void write_in_short(const FaultTable& table, Severity severity, Page& page) {
  const Entries entries = table.of(severity);
  if (entries.empty()) return;
  page.heading(question::heading_of(severity, entries.size()));
  const std::string rule =
      severity == Severity::Nothing
          ? "Harmless while nothing else fails: a fuse replaced by a bigger one, or a board that "
            "does not watch, is missed first when a second thing goes wrong"
          : question::capitalised(question::rule_of(severity));
  page.paragraph(fmt::format("{}. These: {}.", rule,
                             fmt::join(modes_in_words(entries, Meaning::LeftOut), "; ")));
}

void write_unfollowed(const FaultTable& table, Page& page) {
  Entries found;
  for (const FaultEntry& entry : table.entries) {
    const bool is_open = std::ranges::any_of(
        entry.effects, [](const auto& effect) { return !effect.judgement.was_followed; });
    if (is_open) found.push_back(&entry);
  }
  if (found.empty()) return;
  page.paragraph(fmt::format(
      "{} could not be followed to the end, and what is told of them may be less than what they "
      "do: {}.",
      question::counted(found.size(), "fault"),
      fmt::join(modes_in_words(found, Meaning::LeftOut), "; ")));
}

/// One thing to look at, with all faults that it tells.
std::vector<Page::ToTick> ticks_of(const question::HiddenGroup& group) {
  std::vector<std::pair<std::string, Entries>> seen;
  for (const FaultEntry* const entry : group.faults) {
    const std::string& words = entry->check->words;
    auto at = std::ranges::find(seen, words, &decltype(seen)::value_type::first);
    if (at == seen.end()) at = seen.insert(at, {words, {}});
    at->second.push_back(entry);
  }
  std::vector<Page::ToTick> ticks;
  ticks.reserve(seen.size());
  for (const auto& [words, faults] : seen) {
    ticks.push_back({"Not so: " + words,
                     fmt::format("If it is so: {}",
                                 fmt::join(modes_in_words(faults, Meaning::LeftOut), "; "))});
  }
  return ticks;
}

void write_hidden(const FaultTable& table, Page& page) {
  const auto groups = question::checks_of(table);
  if (groups.empty()) {
    page.heading("Hidden faults");
    page.paragraph("No fault that matters stays hidden until the outage.");
    return;
  }
  std::size_t count = 0;
  for (const auto& group : groups) count += group.faults.size();
  page.heading(fmt::format("Hidden until the outage: {}, and how to find them",
                           question::counted(count, "fault")));
  page.paragraph(
      "With the mains there nothing shows of these. Go through the list before anyone relies on "
      "the supply, and again once a year; the quickest checks stand first. Each line says what "
      "shows if something is wrong: tick it when you looked and it was not so. Times are assumed, "
      "for someone who has done it before.");
  for (const question::HiddenGroup& group : groups) {
    page.heading(question::capitalised(group.words));
    const Entries& faults = group.faults;
    if (faults.front()->check) {
      page.checklist(ticks_of(group));
      continue;
    }
    page.paragraph("Make sure of these while the build is open: " +
                   fmt::format("{}", fmt::join(modes_in_words(faults, Meaning::Told), "; ")) + ".");
  }
}

std::string partial_words(const FaultTable& table) {
  if (table.entries.empty()) {
    return "Stopped before any fault was tried: this part of the report is missing.";
  }
  return fmt::format(
      "Stopped: {} of {} faults were tried. This is not the whole table; what is missing may be "
      "worse than what stands here.",
      table.entries.size(), table.faults);
}

void write_rules(Page& page) {
  page.heading("How this was found");
  page.list(
      {"Every failure mode of every part; of every lead that it comes off, that a screw of it is "
       "loose, that it has chafed through to the common or to the minus of the cells. One at a "
       "time, as in a failure modes and effects analysis (IEC 60812).",
       "Each is there from the start of the run, and again it arises in the middle of the outage "
       "where it can; the worse of the two is told. Times of fuses count from the fault, or from "
       "the loss of mains where the fault was there from the start; times of devices from the loss "
       "of mains.",
       "Fuses clear between the earliest and the latest that their standard allows. A board cuts "
       "off what lies behind it: a fault before it goes on.",
       "Every fault at both onsets, with every device and every clearing, is in faults.csv and "
       "faults.json."});
}

}  // namespace

void write_faults(const ReportMatter& matter, Page& page) {
  if (matter.faults == nullptr) return;
  const FaultTable& table = *matter.faults;
  if (table.entries.empty() && !table.is_partial) return;
  page.begin_section("faults", "Before you plug it in: when one thing fails");
  if (table.is_partial) page.lead_paragraph(partial_words(table));
  if (!table.entries.empty()) {
    page.lead_paragraph(headline_of(table));
    page.paragraph(question::summary_of(table));
    for (const Severity severity :
         {Severity::Burns, Severity::Breaks, Severity::Loses, Severity::Shortens}) {
      write_rows(matter.build, table, severity, page);
    }
    for (const Severity severity : {Severity::Strains, Severity::Slows, Severity::Nothing}) {
      write_in_short(table, severity, page);
    }
    write_unfollowed(table, page);
    write_hidden(table, page);
    write_rules(page);
  }
  page.caution("Faults and trials", question::cautions_of_faults());
  page.end_section();
}

}  // namespace tideover::papers
