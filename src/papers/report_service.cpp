#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using question::Outage;
using question::Serving;
using question::Trial;

namespace {

constexpr std::string_view none = "none";

std::string served_for(const Serving& serving, const Outage& outage) {
  if (!serving.served_before) return "not served before either";
  if (!serving.lost_after) return question::show_time(outage.length()) + ", to its end";
  return question::show_time(*serving.lost_after);
}

std::string interruptions_of(const Serving& serving, question::Interruption::When when) {
  const std::string text = question::lengths_in_words(serving.interruptions, when);
  return text.empty() ? std::string(none) : text;
}

std::string or_dash(const std::optional<quantity::Second>& time) {
  return time ? question::show_time(*time) : "\u2013";
}

/// Nobody noticed anything: told in one row.
bool is_calm(const Trial& trial) {
  return !trial.outages.empty() && std::ranges::all_of(trial.outages, [](const Outage& outage) {
    return outage.carried_whole && std::ranges::all_of(outage.servings, [](const Serving& serving) {
             return serving.served_before && serving.interruptions.empty();
           });
  });
}

std::string calm_in_words(const Trial& trial) {
  const auto [shortest, longest] = std::ranges::minmax(
      trial.outages, {}, [](const Outage& outage) { return outage.length().si(); });
  std::string text = question::counted(trial.outages.size(), "outage") + " of " +
                     question::show_time(shortest.length());
  const std::string most = question::show_time(longest.length());
  return most == question::show_time(shortest.length()) ? text : text + " to " + most;
}

void add_rows(const Trial& trial, RowGroup& into) {
  into.title = trial.words;
  using When = question::Interruption::When;
  if (is_calm(trial)) {
    const std::string no_gap(none);
    into.rows.push_back(
        {"every device", calm_in_words(trial) + ", throughout", no_gap, no_gap, "\u2013"});
    return;
  }
  for (std::size_t k = 0; k < trial.outages.size(); ++k) {
    const Outage& outage = trial.outages[k];
    for (const Serving& serving : outage.servings) {
      std::string name = serving.load;
      if (trial.outages.size() > 1) name += fmt::format(", outage {}", k + 1);
      into.rows.push_back({name, served_for(serving, outage),
                           interruptions_of(serving, When::AtLoss),
                           interruptions_of(serving, When::AtReturn), or_dash(serving.back_after)});
    }
  }
}

void add_endings(const Trial& trial, RowGroup& into) {
  into.title = trial.words;
  for (std::size_t k = 0; k < trial.outages.size(); ++k) {
    const Outage& outage = trial.outages[k];
    into.rows.push_back({trial.outages.size() > 1 ? fmt::format("outage {}", k + 1) : "the outage",
                         or_dash(outage.first_lost), or_dash(outage.last_lost),
                         outage.ended_by.empty() ? "\u2013" : outage.ended_by,
                         or_dash(outage.cut_off), or_dash(outage.full_after)});
  }
}

}  // namespace

void write_service(const ReportMatter& matter, Page& page) {
  page.begin_section("service", "Who was served when");
  Table served{.caption =
                   "How long each device is served, counted from the loss of mains, and how "
                   "long it is without service when the mains goes and comes back.",
               .columns = {{"Device"},
                           {"Served for"},
                           {"Gap as the mains goes"},
                           {"Gap as it is back"},
                           {"If lost: back after", false}},
               .style = Table::Style::Small};
  Table endings{.caption =
                    "How each outage ends, counted from the loss of mains; full again is "
                    "counted from its return.",
                .columns = {{"Outage"},
                            {"First device lost"},
                            {"Last device lost"},
                            {"What took the first"},
                            {"Pack cut off"},
                            {"Full again"}},
                .style = Table::Style::Small};
  for (const Trial* trial : matter.prediction.trials()) {
    if (trial->outages.empty()) continue;
    add_rows(*trial, served.groups.emplace_back());
    if (!is_calm(*trial)) add_endings(*trial, endings.groups.emplace_back());
  }
  page.table(served);
  if (!endings.groups.empty()) page.table(endings);
  page.end_section();
}

namespace {

/// Events in order; of one that comes again and again only the first two and the last stand here.
std::vector<std::vector<std::string>> event_rows(const Trial& trial) {
  std::map<std::pair<std::string, std::string>, std::size_t> count;
  for (const run::Event& event : trial.record.events) ++count[{event.part, event.words}];
  std::map<std::pair<std::string, std::string>, std::size_t> told;
  std::vector<std::vector<std::string>> rows;
  for (const run::Event& event : trial.record.events) {
    const std::pair<std::string, std::string> what{event.part, event.words};
    const std::size_t number = ++told[what];
    const std::size_t all = count[what];
    if (all > 4 && number > 2 && number < all) continue;
    std::string words = event.words;
    if (all > 4 && number == 2) words += fmt::format(", and so on, {} times in all", all);
    if (all > 4 && number == all) words += ", for the last time";
    rows.push_back({question::show_instant(event.at, trial.outages), event.part, words});
  }
  return rows;
}

}  // namespace

void write_events(const ReportMatter& matter, Page& page) {
  constexpr std::size_t most = 60;
  const Trial& trial = matter.prediction.usual;
  page.begin_section("events", "What happens, in order");
  Table table{.caption = "Every event of the run, " + trial.words + ".",
              .columns = {{"When"}, {"Part"}, {"What it does"}},
              .style = Table::Style::Small};
  RowGroup& group = table.groups.emplace_back();
  group.rows = event_rows(trial);
  const std::size_t all = group.rows.size();
  group.rows.resize(std::min(all, most));
  if (group.rows.empty()) {
    page.paragraph("Nothing that a part does of itself.");
  } else {
    page.table(table);
  }
  if (all > most) {
    page.paragraph(
        fmt::format("{} more events are left out here; they are in `run.json`.", all - most));
  }
  for (const run::Chatter& chatter : trial.record.chatters) {
    page.paragraph(fmt::format("{} {} {} times, every {}.", chatter.part, chatter.words,
                               chatter.times, question::show_time(chatter.period)));
  }
  page.end_section();
}

}  // namespace tideover::papers
