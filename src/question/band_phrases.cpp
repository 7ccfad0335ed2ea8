#include "question/band_phrases.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include "finding/rules.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

using Need = NeedKey::Need;
using Sort = BandKey::Sort;

namespace {

std::string percent(double share) { return fmt::format("{:.3g} %", 100.0 * share); }

std::string under_words(const Bands& bands, int under) {
  return in_words(bands.circumstances[static_cast<std::size_t>(under)]);
}

}  // namespace

std::string_view in_words(Sort sort) {
  switch (sort) {
    case Sort::Carried: return "carried";
    case Sort::CutOff: return "cut off";
    case Sort::Recharge: return "recharge";
    case Sort::Margin: return "margin";
    case Sort::Extreme: break;
  }
  return "extreme";
}

std::string_view in_words(Need need) {
  switch (need) {
    case Need::Outlast: return "outlast";
    case Need::Recharge: return "recharge";
    case Need::Service: return "service";
    case Need::Life: return "life";
    case Need::NoHarm: return "no harm";
    case Need::All: break;
  }
  return "all";
}

std::string band_title(const BandKey& key) {
  switch (key.sort) {
    case Sort::Carried: return "Every device carried for";
    case Sort::CutOff: return "Pack cut off after";
    case Sort::Recharge: return "Full again after";
    case Sort::Margin: {
      const finding::Rule* const rule = finding::find_rule(key.name);
      const std::string title = rule == nullptr ? key.name : std::string(rule->title);
      return title + ": " + key.part;
    }
    case Sort::Extreme: break;
  }
  return key.part + ": " + key.name;
}

std::string need_title(Need need) {
  switch (need) {
    case Need::Outlast: return "Every device is carried for as long as asked";
    case Need::Recharge: return "The pack is full again as soon as asked";
    case Need::Service: return "No device restarts";
    case Need::Life: return "The cells live as long as asked";
    case Need::NoHarm: return "Nothing fails that can do harm";
    case Need::All: break;
  }
  return "All of this together";
}

std::string under_words(const Bands& bands, const BandKey& key) {
  return key.sort == Sort::Margin ? std::string() : under_words(bands, key.under);
}

std::string under_words(const Bands& bands, const NeedKey& key) {
  const bool is_split = key.need == Need::Outlast || key.need == Need::Recharge;
  return is_split ? under_words(bands, key.under) : std::string();
}

quantity::Measure measure_of_band(const Bands& bands, const BandKey& key) {
  if (key.sort == Sort::Margin) return quantity::measure_of<quantity::Ratio>();
  if (key.sort != Sort::Extreme) return quantity::measure_of<quantity::Second>();
  for (const WatchedExtreme& one : bands.watched) {
    if (one.part == key.part && one.name == key.name) return one.measure;
  }
  return {};
}

std::string show_of_band(const Bands& bands, const BandKey& key, double value_si) {
  if (std::isinf(value_si)) return "never";
  if (key.sort == Sort::Margin) return fmt::format("{:.2g} %", 100.0 * value_si);
  if (key.sort != Sort::Extreme) return show_time(quantity::Second::of_si(value_si));
  return quantity::show_si(value_si, measure_of_band(bands, key));
}

std::string chance_words(const Chance& chance, std::uint64_t draws) {
  if (chance.estimate >= 1.0) {
    return fmt::format("all of {} (more than {} with 95 % confidence)", counted(draws, "draw"),
                       percent(std::floor(chance.low * 1e4) * 1e-4));
  }
  if (chance.estimate <= 0.0) {
    return fmt::format("none of {} (less than {} with 95 % confidence)", counted(draws, "draw"),
                       percent(std::ceil(chance.high * 1e4) * 1e-4));
  }
  return fmt::format("{} ({} to {} with 95 % confidence)", percent(chance.estimate),
                     percent(chance.low), percent(chance.high));
}

std::vector<BrokenWords> broken_rules(const Bands& bands) {
  const auto& counts = bands.tally.counts();
  const auto run = static_cast<double>(counts.draws - counts.contradicting - counts.stuck);
  std::vector<BrokenWords> told;
  for (const auto& [broken, count] : bands.tally.broken()) {
    const BandKey key{Sort::Margin, 0, broken.part, broken.rule};
    const double share = static_cast<double>(count) / run;
    std::string words = fmt::format("broken by {} of the draws", percent(share));
    if (const auto band = bands.tally.band(key); band && band->p5.value_si < 0.0) {
      words += fmt::format("; margin {} to {}", show_of_band(bands, key, band->p5.value_si),
                           show_of_band(bands, key, band->p95.value_si));
    }
    told.push_back({band_title(key), std::move(words), share});
  }
  std::ranges::stable_sort(told, std::ranges::greater{}, &BrokenWords::draws_share);
  return told;
}

std::string draws_words(const Bands& bands) {
  const auto& counts = bands.tally.counts();
  if (bands.inputs.count() == 0) {
    return "No value of this build has a tolerance: one run, and no band. Give the values that "
           "were measured or guessed their `+/-`.";
  }
  std::string text = counted(counts.draws, "draw");
  if (bands.ended == BandsEnded::StoodStill) {
    text += ", then P5, P50 and P95 stood still to 1 %";
  } else if (bands.ended == BandsEnded::Stopped && counts.draws < bands.draws_meant) {
    text += fmt::format(" of {}: stopped, what is told is of these", bands.draws_meant);
  } else if (bands.ended == BandsEnded::AtMost) {
    text += " and no more, though P5, P50 and P95 still moved by over 1 %: --draws makes more";
  }
  text += fmt::format(" (timeline {}, bursts of the devices as their mean)", bands.timeline);
  if (counts.contradicting > 0) {
    text += fmt::format("; {} of values that cannot be together {} left out", counts.contradicting,
                        counts.contradicting == 1 ? "was" : "were");
  }
  if (counts.stuck > 0) {
    text += fmt::format("; {} could not be run to the end and count as not met", counts.stuck);
  }
  return text + ".";
}

std::string values_words(const Bands& bands) {
  constexpr std::size_t few = 5;
  const BandInputs& inputs = bands.inputs;
  std::string text =
      fmt::format("Drawn: {} with a tolerance", counted(inputs.values.size(), "value"));
  if (inputs.names.size() < inputs.values.size()) {
    text += fmt::format(", by {} as some were read with one meter",
                        counted(inputs.names.size(), "random number"));
  }
  text += ".";
  if (inputs.held.empty()) return text;
  text += fmt::format(" Held as they stand, though nobody measured them: {} of the sheet",
                      inputs.held_of_sheet);
  for (std::size_t k = 0; k < std::min(few, inputs.held_of_sheet); ++k) {
    text += (k == 0 ? " (" : ", ") + inputs.held[k];
  }
  if (inputs.held_of_sheet > few) text += ", ...";
  if (inputs.held_of_sheet > 0) text += ")";
  return text +
         fmt::format(" and {} of the kinds' own.", inputs.held.size() - inputs.held_of_sheet);
}

std::string width_words(double share, double error_share) {
  constexpr double least_told = 0.005;
  if (std::abs(share) < least_told && error_share < least_told) return "none";
  return fmt::format("{:.0f} % (+/- {:.0f})", std::max(0.0, 100.0 * share), 200.0 * error_share);
}

std::string advice_words(const Bands& bands) {
  const auto& advice = bands.widths.advice;
  if (!advice) return {};
  const auto shown = [&](double value_si) { return show_of_band(bands, advice->band, value_si); };
  const std::string& path = bands.widths.groups[advice->group].words;
  std::string title = band_title(advice->band);
  title.front() = static_cast<char>(std::tolower(title.front()));
  return fmt::format(
      "{} {}{}: the band of \"{}\" ({}) narrows from {} to {} to about {} to {}, and its middle "
      "moves with what is read.",
      advice->is_measured ? "Measure again, more exactly," : "Measure", path,
      advice->is_measured ? "" : " and state its tolerance", title,
      under_words(bands, advice->band), shown(advice->from_p5_si), shown(advice->from_p95_si),
      shown(advice->to_p5_si), shown(advice->to_p95_si));
}

}  // namespace tideover::question
