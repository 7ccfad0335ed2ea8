#include <cmath>

#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using question::Keeping;
using question::show_time;

namespace {

constexpr double joules_a_wh = 3600.0;

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string keeping_in_words(const Keeping& keeping, const std::string& from) {
  if (!keeping.was_tried) return {};
  if (!keeping.lasts) {
    return fmt::format("{}, every group of cells is still above its lowest voltage after {}.", from,
                       show_time(keeping.watched));
  }
  if (keeping.lasts->si() < 3600.0) {
    return fmt::format("{}, {} is below its lowest voltage at once: what cuts off cuts too late.",
                       from, keeping.group);
  }
  return fmt::format("{}, {} falls below its lowest voltage after {}.", from, keeping.group,
                     show_time(*keeping.lasts));
}

void write_head_room(const question::Prediction& prediction, Page& page) {
  Table table{.caption = "What each adapter gives, as a share of its rating at its temperature (" +
                         prediction.usual.words + ").",
              .columns = {{"Adapter"},
                          {"All is well", true},
                          {"A second or more", true},
                          {"First"},
                          {"Shortest peak", true},
                          {"Above nine tenths for", true}}};
  RowGroup& group = table.groups.emplace_back();
  for (const question::HeadRoom& room : prediction.head_room) {
    group.rows.push_back({room.adapter, percent(room.standby.si()), percent(room.lasting.value_si),
                          question::show_instant(room.lasting.at, prediction.usual.outages),
                          percent(room.highest.value_si), show_time(room.near)});
  }
  if (!group.rows.empty()) page.table(table);
}

Table books_table(const question::Trial& trial) {
  Table table{
      .caption = "Energy of every part over the whole run, " + trial.words + ".",
      .columns = {{"Part"}, {"Supplied, Wh", true}, {"Served, Wh", true}, {"Lost, Wh", true}},
      .style = Table::Style::Small};
  RowGroup& group = table.groups.emplace_back();
  run::Account sum{.name = "All together"};
  for (const run::Account& account : trial.record.books.accounts) {
    sum.supplied += account.supplied;
    sum.served += account.served;
    sum.lost += account.lost;
    group.rows.push_back({account.name, watt_hours(account.supplied), watt_hours(account.served),
                          watt_hours(account.lost)});
  }
  RowGroup& total = table.groups.emplace_back();
  total.rows.push_back(
      {sum.name, watt_hours(sum.supplied), watt_hours(sum.served), watt_hours(sum.lost)});
  return table;
}

}  // namespace

void write_standby(const ReportMatter& matter, Page& page) {
  const question::Prediction& prediction = matter.prediction;
  page.begin_section("standby", "While all is well, and when nobody comes");
  std::vector<std::string> given;
  for (const question::MeanPower& adapter : prediction.standby.adapters) {
    given.push_back(fmt::format("{} gives {}", adapter.part, quantity::show(adapter.power)));
  }
  given.push_back(
      fmt::format("the devices take {} of it", quantity::show(prediction.standby.loads)));
  given.push_back(
      fmt::format("the supply itself takes {}", quantity::show(prediction.standby.supply)));
  given.push_back(fmt::format("the pack gives {}", quantity::show(prediction.standby.pack)));
  page.paragraph("On the mains, on average before the outage:");
  page.list(given);
  write_head_room(prediction, page);
  const std::string dark =
      keeping_in_words(prediction.dark, "If the mains stays away after the pack has been cut off");
  const std::string stored =
      keeping_in_words(prediction.storage, "Charged, switched off and unplugged");
  for (const std::string& words : {dark, stored}) {
    if (!words.empty()) page.paragraph(words);
  }
  if (!prediction.can_be_switched_off) {
    page.paragraph(
        "No switch of this build takes the devices off the pack: to store it, disconnect the "
        "pack.");
  }
  page.end_section();
}

void write_energy(const ReportMatter& matter, Page& page) {
  const question::Trial& trial = matter.prediction.usual;
  const run::Books& books = trial.record.books;
  page.begin_section("energy", "Where the energy went");
  page.table(books_table(trial));
  page.paragraph(fmt::format(
      "Stored in cells, capacitors and coils: {:.4g} Wh at the start, {:.4g} Wh at the end. "
      "Supplied "
      "less served less lost less what was gained in store leaves {:.1g} Wh, {:.1g} of all that "
      "flowed.",
      books.stored_before.si() / joules_a_wh, books.stored_after.si() / joules_a_wh,
      std::abs(books.residual.si()) / joules_a_wh, books.open_share));
  page.end_section();
}

}  // namespace tideover::papers
