#include <algorithm>

#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "question/band_phrases.hpp"

namespace tideover::papers {

using question::Band;
using question::BandKey;
using question::Bands;
using Sort = BandKey::Sort;

namespace {

std::vector<std::string> row_of(const Bands& bands, const BandKey& key, const Band& band) {
  std::string title = question::band_title(key);
  if (const std::string under = question::under_words(bands, key); !under.empty()) {
    title += " (" + under + ")";
  }
  std::vector<std::string> row{std::move(title)};
  for (const double si : {band.p5.value_si, band.p50.value_si, band.p95.value_si}) {
    row.push_back(question::show_of_band(bands, key, si));
  }
  return row;
}

void write_chances(const Bands& bands, Page& page) {
  Table table{.caption = "How often what is asked for is met, over all draws.",
              .columns = {{"What is asked"}, {"Under"}, {"Met by", true}}};
  RowGroup& group = table.groups.emplace_back();
  for (const auto& [key, met] : bands.tally.needs()) {
    std::uint64_t draws = 0;
    for (const auto& one : met) draws += one.of;
    const std::string under = question::under_words(bands, key);
    group.rows.push_back({question::need_title(key.need), under.empty() ? "both" : under,
                          question::chance_words(question::chance_of(met), draws)});
  }
  page.table(table);
}

/// Times; of margins and extremes bands.csv has the bands.
void write_times(const Bands& bands, Page& page) {
  Table table{.caption = "Nine draws of ten lie between P5 and P95, half of them below P50.",
              .columns = {{"Time"}, {"P5", true}, {"P50", true}, {"P95", true}}};
  RowGroup& group = table.groups.emplace_back();
  for (const auto& [key, numbers] : bands.tally.numbers()) {
    if (key.sort == Sort::Margin || key.sort == Sort::Extreme) continue;
    group.rows.push_back(row_of(bands, key, *bands.tally.band(key)));
  }
  if (!group.rows.empty()) page.table(table);
}

void write_broken(const Bands& bands, Page& page) {
  const std::vector<question::BrokenWords> broken = question::broken_rules(bands);
  if (broken.empty()) return;
  page.heading("Rules that some draws break");
  std::vector<std::string> items;
  items.reserve(broken.size());
  for (const question::BrokenWords& one : broken)
    items.push_back(one.title + ": " + one.words + ".");
  page.list(items);
}

void write_widths(const Bands& bands, Page& page) {
  const question::WidthShares& widths = bands.widths;
  if (widths.bands.empty()) {
    page.paragraph(
        "Which of the values this width comes from, and which one to measure, tells `tideover "
        "bands`; it makes more draws, too. All bands, extremes among them, are in bands.csv.");
    return;
  }
  const question::WidthOfBand& first = widths.bands.front();
  Table table{.caption = fmt::format("What the width of \"{}\" comes from ({}).",
                                     question::band_title(first.band),
                                     question::under_words(bands, first.band)),
              .columns = {{"Value"}, {"By itself", true}, {"In all", true}}};
  RowGroup& group = table.groups.emplace_back();
  for (std::size_t k = 0; k < widths.groups.size(); ++k) {
    const auto& share = first.shares[k];
    group.rows.push_back({widths.groups[k].words,
                          question::width_words(share.first, share.first_error),
                          question::width_words(share.total, share.total_error)});
  }
  page.table(table);
  if (const std::string advice = question::advice_words(bands); !advice.empty()) {
    page.paragraph(advice);
  }
}

}  // namespace

void write_bands(const ReportMatter& matter, Page& page) {
  const Bands& bands = matter.bands;
  if (bands.tally.counts().draws == 0) return;
  page.begin_section("bands", "How sure this is");
  page.paragraph(question::draws_words(bands));
  if (bands.inputs.count() > 0) {
    page.paragraph(question::values_words(bands));
    write_chances(bands, page);
    write_times(bands, page);
    write_broken(bands, page);
    write_widths(bands, page);
  }
  page.end_section();
}

}  // namespace tideover::papers
