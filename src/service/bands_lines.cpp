#include "service/bands_lines.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "question/band_phrases.hpp"

namespace tideover::service {

using question::Band;
using question::BandKey;
using question::Bands;
using question::Chance;
using question::NeedKey;
using Sort = BandKey::Sort;

namespace {

constexpr double relied_on_share = 0.95;

Tone tone_of(const Chance& chance) {
  if (chance.low >= relied_on_share) return Tone::Good;
  return chance.high < relied_on_share ? Tone::Bad : Tone::Warning;
}

void add_chances(const Bands& bands, std::vector<Line>& lines) {
  lines.push_back({Tone::Strong, "How often it does what is asked"});
  for (const auto& [key, met] : bands.tally.needs()) {
    const Chance chance = question::chance_of(met);
    std::uint64_t draws = 0;
    for (const auto& one : met) draws += one.of;
    const std::string under = question::under_words(bands, key);
    lines.push_back({tone_of(chance), fmt::format("  {}{}: {}", question::need_title(key.need),
                                                  under.empty() ? "" : " (" + under + ")",
                                                  question::chance_words(chance, draws))});
  }
}

std::string band_words(const Bands& bands, const BandKey& key, const Band& band) {
  const auto shown = [&](double si) { return question::show_of_band(bands, key, si); };
  return fmt::format("{} to {}, half of them below {}", shown(band.p5.value_si),
                     shown(band.p95.value_si), shown(band.p50.value_si));
}

std::string surety(const Bands& bands, const BandKey& key, const Band& band) {
  const auto range = [&](const Band::Quantile& quantile) {
    return question::show_of_band(bands, key, quantile.low_si) + " to " +
           question::show_of_band(bands, key, quantile.high_si);
  };
  return fmt::format("    P5 {}, P50 {}, P95 {} with 95 % confidence", range(band.p5),
                     range(band.p50), range(band.p95));
}

void add_times(const Bands& bands, std::vector<Line>& lines) {
  lines.push_back({Tone::Strong, "Bands: nine draws of ten (P5 to P95)"});
  for (const auto& [key, numbers] : bands.tally.numbers()) {
    if (key.sort == Sort::Margin || key.sort == Sort::Extreme) continue;
    const Band band = *bands.tally.band(key);
    lines.push_back({Tone::Plain,
                     fmt::format("  {} {} ({})", question::band_title(key),
                                 band_words(bands, key, band), question::under_words(bands, key))});
    lines.push_back({Tone::Quiet, surety(bands, key, band)});
  }
}

void add_broken(const Bands& bands, std::vector<Line>& lines) {
  constexpr std::size_t most = 8;
  const std::vector<question::BrokenWords> broken = question::broken_rules(bands);
  if (broken.empty()) return;
  lines.push_back({});
  lines.push_back({Tone::Strong, "Rules that some draws break"});
  for (std::size_t k = 0; k < std::min(most, broken.size()); ++k) {
    lines.push_back({broken[k].draws_share > 0.5 ? Tone::Bad : Tone::Warning,
                     "  " + broken[k].title + ": " + broken[k].words});
  }
  if (broken.size() > most) {
    lines.push_back(
        {Tone::Quiet, fmt::format("  and {} more; --json has all", broken.size() - most)});
  }
}

void add_widths(const Bands& bands, std::vector<Line>& lines) {
  const question::WidthShares& widths = bands.widths;
  if (widths.bands.empty()) return;
  const question::WidthOfBand& first = widths.bands.front();
  lines.push_back({});
  lines.push_back({Tone::Strong, fmt::format("What the width of \"{}\" comes from ({})",
                                             question::band_title(first.band),
                                             question::under_words(bands, first.band))});
  for (std::size_t k = 0; k < widths.groups.size(); ++k) {
    const question::WidthGroup& group = widths.groups[k];
    const bool is_origin = group.sort == question::WidthGroup::Sort::Origin;
    const auto& share = first.shares[k];
    lines.push_back({is_origin ? Tone::Quiet : Tone::Plain,
                     fmt::format("  {}{}: {} by itself, {} in all", is_origin ? "all that is " : "",
                                 group.words, question::width_words(share.first, share.first_error),
                                 question::width_words(share.total, share.total_error))});
  }
  if (const std::string advice = question::advice_words(bands); !advice.empty()) {
    lines.push_back({Tone::Strong, advice});
  }
}

}  // namespace

std::vector<Line> bands_lines(const Bands& bands) {
  std::vector<Line> lines;
  lines.push_back({Tone::Plain, question::draws_words(bands)});
  lines.push_back({Tone::Quiet, question::values_words(bands)});
  if (bands.tally.counts().draws == 0) return lines;
  lines.push_back({});
  add_chances(bands, lines);
  lines.push_back({});
  add_times(bands, lines);
  add_broken(bands, lines);
  add_widths(bands, lines);
  return lines;
}

Status status_of(const Bands& bands) {
  if (bands.is_partial()) return Status::Stopped;
  const auto all = bands.tally.chance({NeedKey::Need::All, 0});
  return all && all->estimate >= relied_on_share ? Status::Met : Status::NotMet;
}

}  // namespace tideover::service
