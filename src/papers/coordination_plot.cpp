#include "papers/coordination_plot.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "drawing/log_chart.hpp"
#include "papers/typeset.hpp"
#include "part/fuse/fuse_band.hpp"
#include "quantity/show.hpp"
#include "question/coordination_phrases.hpp"
#include "question/current_range.hpp"

namespace tideover::papers {

using drawing::LogPoint;
using part::Fuse;
using quantity::Ampere;
using quantity::Second;
using quantity::show;
using question::Coordination;
using question::FusesInARow;
using question::LeadCover;

namespace {

/// What is not opened or not damaged in three hours counts as carried for good.
constexpr double latest_shown_s = 1e4;
/// Steps of current along an edge: less than a millimetre each.
constexpr int steps = 240;

/// Fuses of one make, as far as their curves know.
bool are_alike(const Fuse& a, const Fuse& b) {
  return a.style == b.style && a.style != part::FuseStyle::Own && a.rated.si() == b.rated.si() &&
         a.melting.si() == b.melting.si();
}

/// Fuses that share a band, and the current to which they are drawn.
struct Shown {
  std::vector<const Fuse*> fuses;  ///< alike; never empty
  drawing::Fill fill;
  drawing::Stroke edge;
};

/// All that one figure is about.
struct Subject {
  std::string source;
  std::vector<Shown> bands;  ///< the one nearest to the source first
  Ampere highest;
};

drawing::Range currents_of(const Subject& subject) {
  double least_a = std::numeric_limits<double>::infinity();
  double most_a = 1.4 * subject.highest.si();
  for (const Shown& one : subject.bands) {
    const double rated_a = one.fuses.front()->rated.si();
    least_a = std::min(least_a, 0.8 * rated_a);
    most_a = std::max(most_a, 12.0 * rated_a);
  }
  return {drawing::nice_range({least_a, most_a}, 4, drawing::Scale::Log).from, most_a};
}

drawing::LogBand band_of(const Shown& shown, const drawing::Range& current_a) {
  const Fuse& fuse = *shown.fuses.front();
  std::vector<std::string> names;
  for (const Fuse* one : shown.fuses) names.push_back(one->name);
  drawing::LogBand band{
      .name = fmt::format("{}: {} {}", fmt::join(names, ", "), show(fuse.rated.nominal()),
                          part::words_for_fuse_styles()[static_cast<std::size_t>(fuse.style)]),
      .lower = {},
      .upper = {},
      .fill = shown.fill,
      .edge = shown.edge};
  const part::FuseBand times(fuse);
  const auto add = [](Ampere current, std::optional<Second> time, std::vector<LogPoint>& edge) {
    if (!time) return;
    if (edge.empty()) edge.push_back({current.si(), 10.0 * latest_shown_s});
    edge.push_back({current.si(), time->si()});
  };
  for (const Ampere current : question::currents_between(
           Ampere::of_si(current_a.from), Ampere::of_si(current_a.to), steps, times.corners())) {
    add(current, times.earliest(current), band.lower);
    add(current, times.latest(current), band.upper);
  }
  return band;
}

bool is_one_of(const Shown& shown, const part::Part* device) {
  return std::ranges::any_of(shown.fuses, [&](const Fuse* fuse) { return fuse == device; });
}

/// The thinnest lead that one of these fuses protects, returns only where there is no other; null
/// if they protect none.
const LeadCover* thinnest_behind(const Coordination& answer, const Shown& shown) {
  const auto rank = [](const LeadCover& cover) {
    return std::tuple(cover.is_return, cover.withstands, cover.carries);
  };
  const LeadCover* thinnest = nullptr;
  for (const LeadCover& cover : answer.leads) {
    if (!is_one_of(shown, cover.shorts.front().device)) continue;
    if (thinnest == nullptr || rank(cover) < rank(*thinnest)) thinnest = &cover;
  }
  return thinnest;
}

drawing::LogLine lead_line(const LeadCover& cover, quantity::Temperature air,
                           const drawing::Range& current_a, const drawing::Stroke& stroke) {
  const part::Wire& wire = cover.lead->wire;
  drawing::LogLine line{.name = fmt::format("{} stands: {}", cover.lead->name, show(wire.size)),
                        .points = {},
                        .stroke = stroke};
  for (const Ampere current :
       question::currents_between(Ampere::of_si(current_a.from), Ampere::of_si(current_a.to), steps,
                                  finding::standing_corners(wire, air))) {
    const auto stands = finding::standing_time(wire, current, air);
    line.points.push_back({current.si(), stands ? stands->si() : 10.0 * latest_shown_s});
  }
  return line;
}

void add_leads(const Coordination& answer, const Subject& subject, drawing::LogChart& chart) {
  const drawing::Stroke nearest{
      .width_mm = 0.5, .ink = drawing::Ink::Main, .dash = drawing::Dash::LongShort};
  const drawing::Stroke further{
      .width_mm = 0.5, .ink = drawing::Ink::Main, .dash = drawing::Dash::Dotted};
  const LeadCover* last = nullptr;
  for (auto band = subject.bands.rbegin(); band != subject.bands.rend(); ++band) {
    const LeadCover* const cover = thinnest_behind(answer, *band);
    if (cover == nullptr) continue;
    const bool is_same =
        last != nullptr && cover->withstands == last->withstands && cover->carries == last->carries;
    if (is_same) continue;
    chart.lines.push_back(
        lead_line(*cover, answer.air, chart.x, last == nullptr ? nearest : further));
    chart.lines.back().name = with_signs(chart.lines.back().name);
    last = cover;
  }
}

double least_time_s(const drawing::LogChart& chart) {
  double least_s = 1.0;
  for (const auto& band : chart.bands) {
    if (!band.lower.empty()) least_s = std::min(least_s, band.lower.back().y);
  }
  for (const auto& line : chart.lines) least_s = std::min(least_s, line.points.back().y);
  return least_s;
}

drawing::Figure figure_of(const Coordination& answer, const Subject& subject,
                          const std::string& title, const std::string& description) {
  drawing::LogChart chart{.title = title,
                          .description = description,
                          .x_title = "Current of the short circuit, A",
                          .y_title = "Opens after, s",
                          .x = currents_of(subject),
                          .y = {},
                          .bands = {},
                          .lines = {},
                          .marks = {}};
  for (const Shown& shown : subject.bands) chart.bands.push_back(band_of(shown, chart.x));
  add_leads(answer, subject, chart);
  const double least_s = std::pow(10.0, std::floor(std::log10(least_time_s(chart))));
  chart.y = {std::max(1e-5, least_s), latest_shown_s};
  chart.marks.push_back({subject.highest.si(),
                         fmt::format("{} at most from {}", show(subject.highest), subject.source)});
  return draw(chart);
}

// The nearest to the source is hatched, so that what lies under it shows.
Shown hatched(const Fuse& fuse) {
  return {{&fuse},
          drawing::Hatch{.spacing_mm = 1.2,
                         .angle_deg = 45.0,
                         .stroke = {.width_mm = 0.12, .ink = drawing::Ink::Main}},
          {.width_mm = 0.3, .ink = drawing::Ink::Main, .dash = drawing::Dash::Long}};
}

Shown filled(const Fuse& fuse) {
  return {{&fuse},
          drawing::SolidFill{drawing::Ink::Ground},
          {.width_mm = 0.3, .ink = drawing::Ink::Main}};
}

/// "f_lamp behind f_pack." and the stretches; what they come to stands in the text already.
std::string told(const question::FuseRace& race) {
  std::vector<std::string> sentences = sentences_of(race);
  if (sentences.size() > 1) sentences.erase(sentences.begin());
  return fmt::format("{} behind {}. {}", race.behind->name, race.before->name,
                     fmt::join(sentences, " "));
}

Story story_of_row(const Coordination& answer, const std::vector<const FusesInARow*>& alike) {
  const FusesInARow& first = *alike.front();
  Subject subject{first.source->name, {filled(*first.race.behind)}, first.race.highest};
  std::string words = told(first.race);
  for (const FusesInARow* row : alike) {
    if (row == &first) continue;
    subject.bands.front().fuses.push_back(row->race.behind);
    subject.highest = std::max(subject.highest, row->race.highest);
    words += fmt::format(" {} is alike; up to {} flow behind it.", row->race.behind->name,
                         show(row->race.highest));
  }
  subject.bands.push_back(hatched(*first.race.before));
  const std::string title = fmt::format("{} behind {}", question::fuse_words(*first.race.behind),
                                        question::fuse_words(*first.race.before));
  return {figure_of(answer, subject, title, words), words};
}

Story story_of_one(const Coordination& answer, const question::LoneFuse& lone) {
  const Subject subject{lone.source->name, {filled(*lone.fuse)}, lone.highest};
  const std::string words =
      fmt::format("{}: no other fuse stands in a row with it; {} drives {} through it at most.",
                  question::fuse_words(*lone.fuse), lone.source->name, show(lone.highest));
  return {figure_of(answer, subject, question::fuse_words(*lone.fuse), words), words};
}

}  // namespace

std::vector<Story> coordination_figures(const Coordination& answer) {
  std::vector<std::vector<const FusesInARow*>> groups;
  for (const FusesInARow& row : answer.rows) {
    const auto known = std::ranges::find_if(groups, [&](const auto& group) {
      return group.front()->race.before == row.race.before &&
             are_alike(*group.front()->race.behind, *row.race.behind);
    });
    if (known == groups.end()) {
      groups.push_back({&row});
    } else {
      known->push_back(&row);
    }
  }
  std::vector<Story> stories;
  stories.reserve(groups.size());
  for (const auto& group : groups) stories.push_back(story_of_row(answer, group));
  for (const question::LoneFuse& lone : answer.alone) {
    stories.push_back(story_of_one(answer, lone));
  }
  return stories;
}

}  // namespace tideover::papers
