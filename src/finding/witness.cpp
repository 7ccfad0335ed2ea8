#include "finding/witness.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "finding/instant.hpp"
#include "finding/lasting.hpp"
#include "quantity/show.hpp"

namespace tideover::finding {

namespace {

bool is_worse(double a, double b, Limits worse) { return worse == Limits::Above ? a > b : a < b; }

template <class Read>
std::optional<Reached> worst_of(const Evidence& evidence, std::string_view part,
                                std::string_view channel, Limits worse, const Read& read) {
  std::optional<Reached> found;
  for (const Case& one : evidence.cases) {
    const int at = one.record->find(part, channel);
    if (at < 0) continue;
    const std::optional<run::Extreme> here = read(*one.record, static_cast<std::size_t>(at));
    if (!here) continue;
    if (!found || is_worse(here->value_si, found->value_si, worse)) {
      found = Reached{here->value_si, here->at, &one};
    }
  }
  return found;
}

Limits worse_of(const run::Overload& overload) {
  return overload.is_upper ? Limits::Above : Limits::Below;
}

}  // namespace

std::optional<Reached> extreme(const Evidence& evidence, std::string_view part,
                               std::string_view channel, Limits worse) {
  return worst_of(
      evidence, part, channel, worse,
      [worse](const run::Record& record, std::size_t at) -> std::optional<run::Extreme> {
        const auto& extremes = worse == Limits::Above ? record.highest : record.lowest;
        if (at >= extremes.size()) return std::nullopt;
        return extremes[at];
      });
}

std::optional<Reached> lasting_worst(const Evidence& evidence, std::string_view part,
                                     std::string_view channel, Limits worse,
                                     quantity::Second lasts) {
  return worst_of(evidence, part, channel, worse, [&](const run::Record& record, std::size_t at) {
    return lasting(record, at, worse, lasts);
  });
}

std::vector<Exceeded> all_exceeded(const Evidence& evidence) {
  std::vector<Exceeded> worst;
  for (const Case& one : evidence.cases) {
    for (const run::Overload& overload : one.record->overloads) {
      if (overload.is_polarity || overload.longest <= overload.stands) continue;
      const auto same = std::ranges::find_if(worst, [&](const Exceeded& known) {
        return known.overload->part == overload.part && known.overload->rating == overload.rating;
      });
      if (same == worst.end()) {
        worst.push_back({&overload, &one});
      } else if (is_worse(overload.worst.value_si, same->overload->worst.value_si,
                          worse_of(overload))) {
        *same = {&overload, &one};
      }
    }
  }
  return worst;
}

std::optional<Exceeded> exceeded(const Evidence& evidence, std::string_view part,
                                 std::string_view rating) {
  for (const Exceeded& one : all_exceeded(evidence)) {
    if (one.overload->part == part && one.overload->rating == rating) return one;
  }
  return std::nullopt;
}

std::string Exceeded::words() const {
  return fmt::format("{} in all, first {}", quantity::show(overload->total),
                     when_and_where(overload->first, *in));
}

Greatest or_exceeded(Greatest by_sheet, const Evidence& evidence, std::string_view part,
                     std::string_view rating, double scale) {
  const auto over = exceeded(evidence, part, rating);
  if (!over) return by_sheet;
  const double seen_si = scale * std::abs(over->overload->worst.value_si);
  return seen_si > by_sheet.value_si ? Greatest{seen_si, over->words()} : by_sheet;
}

std::string when_and_where(quantity::Second at, const Case& in) {
  return fmt::format("{} ({})", show_instant(at, darks_of(*in.record)), in.words);
}

std::string when_and_where(const Reached& reached) {
  return when_and_where(reached.at, *reached.in);
}

std::optional<Judged> judge_rated(const Evidence& evidence, const Rated& rated,
                                  quantity::Second lasts) {
  auto reached = lasting_worst(evidence, rated.part, rated.channel, rated.limits, lasts);
  if (!reached) reached = extreme(evidence, rated.part, rated.channel, rated.limits);
  if (!reached) return std::nullopt;
  const run::Record& record = *reached->in->record;
  const auto& channel =
      record.channels[static_cast<std::size_t>(record.find(rated.part, rated.channel))];
  const quantity::Measure measure{channel.dimension, channel.is_temperature};
  const double limit_si = rated.scale * rated.limit_si;
  Judged judged{.finding = {.part = rated.part, .limit = Figure{limit_si, measure}}};
  Finding& finding = judged.finding;
  if (const auto over = exceeded(evidence, rated.part, rated.rating)) {
    // What lasts tells what to choose; a peak only where nothing beyond the limit lasts.
    const bool does_last = is_worse(reached->value_si, rated.limit_si, rated.limits);
    const double most_si = does_last ? reached->value_si : over->overload->worst.value_si;
    finding.measured = Figure{rated.scale * most_si, measure};
    finding.margin = margin_of(finding.measured->value_si, limit_si, rated.limits);
    finding.answer = Answer::Fails;
    judged.found = over->words();
    return judged;
  }
  finding.measured = Figure{rated.scale * reached->value_si, measure};
  finding.margin = std::max(0.0, margin_of(finding.measured->value_si, limit_si, rated.limits));
  finding.answer = answer_of(*finding.margin);
  judged.found = when_and_where(*reached);
  return judged;
}

}  // namespace tideover::finding
