#include "papers/changeover_plots.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "papers/plot_bench.hpp"
#include "part/adapter/adapter.hpp"
#include "question/changeover_phrases.hpp"
#include "question/excerpt.hpp"
#include "question/outage.hpp"

namespace tideover::papers {

using question::Changeover;
using question::ChangeView;
using run::ChannelInfo;

namespace {

constexpr double load_panel_mm = 24.0;
constexpr double source_panel_mm = 15.0;
/// What follows later than this is another matter: a fan that stops when its rail is empty.
constexpr double follows_s = 0.25;
/// Shown of a change in which no part does anything.
constexpr double calm_s = 0.04;

/// From the first thing that a part does to when the last load has its dip behind it; where none
/// dips, to the last thing that follows closely.
struct Busy {
  double from_s = 0.0;
  double to_s = calm_s;
};

Busy events_of(const ChangeView& view) {
  Busy busy;
  bool has_begun = false;
  for (const run::Event& event : view.trial.record.events) {
    const double at_s = event.at.si();
    if (question::is_of_the_mains(event)) continue;
    if (has_begun && at_s > busy.to_s + follows_s) break;
    if (!has_begun) busy = {at_s > follows_s ? at_s : 0.0, at_s};
    busy.to_s = std::max(at_s, busy.from_s + 1e-3);
    has_begun = true;
  }
  return busy;
}

double dips_end_s(const ChangeView& view) {
  constexpr double mere_ripple = 0.02;
  double end_s = 0.0;
  for (const question::Passage& one : view.passages) {
    using Outcome = question::Passage::Outcome;
    if (one.outcome == Outcome::NotServed) continue;
    if (one.lost_after) end_s = std::max(end_s, one.lost_after->si());
    const bool is_back = one.outcome != Outcome::Dark && one.is_fed_again;
    if (is_back && one.dip_share() > mere_ripple) end_s = std::max(end_s, one.lowest_after.si());
  }
  return end_s;
}

drawing::TimeStretch time_of(const Changeover& change) {
  Busy all = events_of(change.hardest_view());
  double dips_s = 0.0;
  for (const ChangeView& view : change.views) {
    const Busy one = events_of(view);
    all.from_s = std::min(all.from_s, one.from_s);
    all.to_s = std::max(all.to_s, one.to_s);
    dips_s = std::max(dips_s, dips_end_s(view));
  }
  if (dips_s > all.from_s) all.to_s = dips_s;
  const double length_s = all.to_s - all.from_s;
  const double from_s = std::max(all.from_s - 0.15 * length_s, -question::lead_in_s);
  const double end_s = (change.change.until - change.change.at).si();
  return {.from_s = from_s,
          .to_s = std::max(from_s + 1e-3, std::min(end_s, all.to_s + 0.3 * length_s)),
          .counted_from_s = 0.0,
          .words = change.change.words};
}

/// The hardest first: it gets the heaviest line.
std::vector<const ChangeView*> in_order(const Changeover& change) {
  std::vector<const ChangeView*> views{&change.hardest_view()};
  for (const ChangeView& view : change.views) {
    if (&view != views.front()) views.push_back(&view);
  }
  return views;
}

void add_loads(const Changeover& change, PlotBench& bench) {
  std::vector<const question::Trial*> trials;
  std::vector<std::string> names;
  for (const ChangeView* view : in_order(change)) {
    trials.push_back(&view->trial);
    names.push_back(view->brief);
  }
  for (const question::Passage& passage : change.views.front().passages) {
    const std::size_t panels = bench.plot().panels.size();
    bench.add_comparison("At " + passage.accepts.load, passage.accepts.load, "input voltage",
                         trials, names);
    if (bench.plot().panels.size() == panels) continue;
    drawing::Panel& panel = bench.plot().panels.back();
    panel.height_mm = load_panel_mm;
    panel.also_show.push_back(passage.accepts.high.si());
    panel.bands.push_back({passage.accepts.low.si(), passage.accepts.high.si(), "accepted"});
  }
}

void add_sources(const build::Build& build, PlotBench& bench) {
  const auto add = [&](const char* title, auto is_meant) {
    drawing::Panel* const panel = bench.add_panel(
        title, [&](const ChannelInfo& channel, std::string&) { return is_meant(channel); });
    if (panel == nullptr) return;
    panel->height_mm = source_panel_mm;
    panel->also_show = {0.0};
  };
  add("Coils", [](const ChannelInfo& channel) { return channel.name == "coil voltage"; });
  add("Adapters", [&](const ChannelInfo& channel) {
    return channel.name == "output voltage" &&
           dynamic_cast<const part::Adapter*>(build.find(channel.part)) != nullptr;
  });
}

}  // namespace

std::optional<Story> changeover_figure(const build::Build& build, const Changeover& change) {
  const ChangeView& hardest = change.hardest_view();
  if (hardest.trial.record.instants.size() < 2) return std::nullopt;
  PlotBench bench(hardest.trial);
  add_loads(change, bench);
  if (bench.plot().panels.empty()) return std::nullopt;
  // What a board does of itself leaves coils and adapters as they are.
  if (change.change.stretch) add_sources(build, bench);
  const std::string title = title_of(change);
  bench.plot().title = title + ": the voltages at the devices";
  bench.plot().description = "Time counts from the change.";
  bench.plot().time = {time_of(change)};
  bench.plot().time_title = "Time from the change";
  const bool is_told = std::ranges::none_of(hardest.trial.record.events, [](const auto& event) {
    return event.at.si() <= 0.0 && !question::is_of_the_mains(event);
  });
  if (is_told) bench.plot().events.push_back({0.0, change.change.words});
  bench.mark_events([](const run::Event& event) { return !question::is_of_the_mains(event); });
  return Story{
      draw(bench.plot()),
      fmt::format("{}. {} {}.", title,
                  change.change.stretch ? "Marks, coils and adapters:" : "Marks:", hardest.words)};
}

}  // namespace tideover::papers
