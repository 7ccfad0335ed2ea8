#include "service/bands_json.hpp"

#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "papers/channel_unit.hpp"
#include "part/read_fields.hpp"
#include "question/band_phrases.hpp"

namespace tideover::service {

using numeric::VarianceShare;
using question::Band;
using question::BandKey;
using question::Bands;

namespace {

long whole(std::uint64_t count) { return static_cast<long>(count); }

papers::ChannelUnit unit_for(const Bands& bands, const BandKey& key) {
  const quantity::Measure measure = question::measure_of_band(bands, key);
  return papers::unit_of({{}, {}, measure.dimension, measure.is_point});
}

std::string_view ended_word(question::BandsEnded ended) {
  switch (ended) {
    case question::BandsEnded::AsAsked: return "as many as asked";
    case question::BandsEnded::StoodStill: return "stood still";
    case question::BandsEnded::AtMost: return "as many as may be";
    case question::BandsEnded::Stopped: break;
  }
  return "stopped";
}

Json quantile_json(const Band::Quantile& quantile, const papers::ChannelUnit& unit) {
  return Json::Object{{"value", unit.of_si(quantile.value_si)},
                      {"low", unit.of_si(quantile.low_si)},
                      {"high", unit.of_si(quantile.high_si)}};
}

Json::Object named(const Bands& bands, const BandKey& key) {
  return {{"what", in_words(key.sort)},
          {"part", key.part},
          {"name", key.name},
          {"under", question::under_words(bands, key)}};
}

Json band_json(const Bands& bands, const BandKey& key) {
  const Band band = *bands.tally.band(key);
  const papers::ChannelUnit unit = unit_for(bands, key);
  Json::Object json = named(bands, key);
  json.emplace_back("unit", unit.plain);
  json.emplace_back("draws", whole(band.draws));
  json.emplace_back("p5", quantile_json(band.p5, unit));
  json.emplace_back("p50", quantile_json(band.p50, unit));
  json.emplace_back("p95", quantile_json(band.p95, unit));
  json.emplace_back("lowest", unit.of_si(band.lowest_si));
  json.emplace_back("highest", unit.of_si(band.highest_si));
  for (const question::WatchedExtreme& one : bands.watched) {
    if (key.sort == BandKey::Sort::Extreme && one.part == key.part && one.name == key.name) {
      json.emplace_back("limit", unit.of_si(one.limit_si));
    }
  }
  return json;
}

Json chances_json(const Bands& bands) {
  Json::List list;
  for (const auto& [key, met] : bands.tally.needs()) {
    const question::Chance chance = question::chance_of(met);
    list.push_back(Json::Object{{"need", in_words(key.need)},
                                {"under", question::under_words(bands, key)},
                                {"met_share", chance.estimate},
                                {"low", chance.low},
                                {"high", chance.high}});
  }
  return list;
}

Json broken_json(const Bands& bands) {
  Json::List list;
  for (const auto& [broken, count] : bands.tally.broken()) {
    list.push_back(
        Json::Object{{"rule", broken.rule}, {"part", broken.part}, {"draws", whole(count)}});
  }
  return list;
}

Json share_json(const std::string& words, const VarianceShare& share) {
  return Json::Object{{"of", words},
                      {"first", share.first},
                      {"first_error", share.first_error},
                      {"total", share.total},
                      {"total_error", share.total_error}};
}

Json advice_json(const Bands& bands) {
  const auto& advice = bands.widths.advice;
  if (!advice) return {};
  const papers::ChannelUnit unit = unit_for(bands, advice->band);
  Json::Object json = named(bands, advice->band);
  json.emplace_back("measure", bands.widths.groups[advice->group].words);
  json.emplace_back("is_measured", advice->is_measured);
  json.emplace_back("unit", unit.plain);
  json.emplace_back("from_p5", unit.of_si(advice->from_p5_si));
  json.emplace_back("from_p95", unit.of_si(advice->from_p95_si));
  json.emplace_back("to_p5", unit.of_si(advice->to_p5_si));
  json.emplace_back("to_p95", unit.of_si(advice->to_p95_si));
  json.emplace_back("sentence", question::advice_words(bands));
  return json;
}

Json widths_json(const Bands& bands) {
  const question::WidthShares& widths = bands.widths;
  Json::List list;
  for (const question::WidthOfBand& width : widths.bands) {
    Json::List values;
    Json::List origins;
    for (std::size_t k = 0; k < widths.groups.size(); ++k) {
      const bool is_origin = widths.groups[k].sort == question::WidthGroup::Sort::Origin;
      (is_origin ? origins : values).push_back(share_json(widths.groups[k].words, width.shares[k]));
    }
    Json::Object json = named(bands, width.band);
    json.emplace_back("values", std::move(values));
    json.emplace_back("origins", std::move(origins));
    list.push_back(std::move(json));
  }
  return Json::Object{
      {"draws", whole(widths.draws)}, {"bands", std::move(list)}, {"advice", advice_json(bands)}};
}

}  // namespace

Json drawn_values_json(const question::BandInputs& inputs) {
  Json::List list;
  for (const question::DrawnValue& value : inputs.values) {
    list.push_back(Json::Object{
        {"path", value.path},
        {"origin", part::origin_words()[static_cast<std::size_t>(value.amount.origin)]},
        {"nominal_si", value.amount.nominal_si},
        {"low_si", value.amount.low_si},
        {"high_si", value.amount.high_si},
        {"follows", inputs.names[value.input]}});
  }
  return list;
}

Json::Object bands_json(const Bands& bands) {
  const auto& counts = bands.tally.counts();
  Json::List under;
  for (const run::Circumstances& one : bands.circumstances)
    under.push_back(question::in_words(one));
  Json::List all;
  for (const auto& [key, numbers] : bands.tally.numbers()) all.push_back(band_json(bands, key));
  Json::List held;
  for (std::size_t k = 0; k < bands.inputs.held_of_sheet; ++k) held.push_back(bands.inputs.held[k]);
  return {{"is_partial", bands.is_partial()},
          {"draws", whole(counts.draws)},
          {"draws_meant", whole(bands.draws_meant)},
          {"ended", ended_word(bands.ended)},
          {"contradicting", whole(counts.contradicting)},
          {"not_run_to_the_end", whole(counts.stuck)},
          {"seed", whole(bands.seed)},
          {"timeline", bands.timeline},
          {"circumstances", std::move(under)},
          {"drawn", drawn_values_json(bands.inputs)},
          {"held", std::move(held)},
          {"held_in_all", whole(bands.inputs.held.size())},
          {"chances", chances_json(bands)},
          {"broken", broken_json(bands)},
          {"bands", std::move(all)},
          {"width", widths_json(bands)}};
}

}  // namespace tideover::service
