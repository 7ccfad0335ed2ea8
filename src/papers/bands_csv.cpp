#include "papers/bands_csv.hpp"

#include <cmath>

#include <fmt/format.h>

#include "papers/channel_unit.hpp"
#include "papers/csv_field.hpp"
#include "question/band_phrases.hpp"

namespace tideover::papers {

std::string bands_csv(const question::Bands& bands) {
  std::string text =
      "what,part,name,circumstances,unit,draws,P5,P5 low,P5 high,P50,P50 low,P50 high,P95,P95 low,"
      "P95 high,lowest,highest\r\n";
  for (const auto& [key, numbers] : bands.tally.numbers()) {
    const question::Band band = *bands.tally.band(key);
    const quantity::Measure measure = question::measure_of_band(bands, key);
    const ChannelUnit unit = unit_of({{}, {}, measure.dimension, measure.is_point});
    text += fmt::format("{},{},{},{},{},{}", question::in_words(key.sort), csv_field(key.part),
                        csv_field(key.name), csv_field(question::under_words(bands, key)),
                        unit.plain, band.draws);
    const auto add = [&](double value_si) {
      text += std::isinf(value_si) ? ",never" : fmt::format(",{:.6g}", unit.of_si(value_si));
    };
    for (const auto* quantile : {&band.p5, &band.p50, &band.p95}) {
      for (const double si : {quantile->value_si, quantile->low_si, quantile->high_si}) add(si);
    }
    add(band.lowest_si);
    add(band.highest_si);
    text += "\r\n";
  }
  return text;
}

}  // namespace tideover::papers
