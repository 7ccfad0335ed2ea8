#include "papers/plot_bench.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "papers/channel_unit.hpp"

namespace tideover::papers {

namespace {

/// The range that the samples leave for no longer than `brief_s` at either end.
std::pair<double, double> lasting_range(std::span<const double> t_s, std::span<const double> y,
                                        double brief_s) {
  std::vector<std::pair<double, double>> lows;  // lower end of a step, its length
  std::vector<std::pair<double, double>> highs;
  for (std::size_t k = 1; k < y.size(); ++k) {
    const double dt_s = t_s[k] - t_s[k - 1];
    lows.emplace_back(std::min(y[k - 1], y[k]), dt_s);
    highs.emplace_back(std::max(y[k - 1], y[k]), dt_s);
  }
  std::ranges::sort(lows);
  std::ranges::sort(highs, std::ranges::greater{});
  const auto reach = [&](const std::vector<std::pair<double, double>>& steps) {
    double gone_s = 0.0;
    for (const auto& [value, dt_s] : steps) {
      gone_s += dt_s;
      if (gone_s > brief_s) return value;
    }
    return steps.empty() ? 0.0 : steps.front().first;
  };
  return std::minmax(reach(lows), reach(highs));
}

}  // namespace

PlotBench::PlotBench(const question::Trial& trial) : trial_(trial) {
  if (!trial.record.instants.empty()) end_s_ = trial.record.instants.back().si();
}

std::span<const double> PlotBench::keep(std::vector<double> numbers) {
  return kept_.emplace_back(std::move(numbers));
}

std::span<const double> PlotBench::times_of(const question::Trial& trial) {
  std::vector<double> times;
  times.reserve(trial.record.instants.size());
  for (const quantity::Second at : trial.record.instants) times.push_back(at.si());
  return keep(std::move(times));
}

drawing::Panel* PlotBench::add_panel(std::string quantity, const Pick& pick) {
  drawing::Panel panel{.quantity = std::move(quantity)};
  const run::Record& record = trial_.record;
  std::span<const double> times;
  for (std::size_t c = 0; c < record.channels.size(); ++c) {
    std::string name = record.channels[c].part;
    if (!pick(record.channels[c], name)) continue;
    if (times.empty()) times = times_of(trial_);
    const ChannelUnit unit = unit_of(record.channels[c]);
    panel.unit = unit.printed;
    std::vector<double> numbers;
    numbers.reserve(record.samples_si[c].size());
    for (const double si : record.samples_si[c]) numbers.push_back(unit.of_si(si));
    panel.series.push_back({.name = name, .t_s = times, .y = keep(std::move(numbers))});
  }
  if (panel.series.empty()) return nullptr;
  plot_.panels.push_back(std::move(panel));
  return &plot_.panels.back();
}

void PlotBench::trim_peaks(double floor) {
  constexpr double brief_s = 1.0;
  if (plot_.panels.empty()) return;
  for (drawing::Series& series : plot_.panels.back().series) {
    const auto [low, high] = lasting_range(series.t_s, series.y, brief_s);
    std::vector<double> cut;
    cut.reserve(series.y.size());
    for (const double y : series.y) cut.push_back(std::max(floor, std::clamp(y, low, high)));
    series.y = keep(std::move(cut));
  }
}

void PlotBench::add_comparison(std::string quantity, const std::string& part,
                               const std::string& name,
                               const std::vector<const question::Trial*>& trials,
                               const std::vector<std::string>& names) {
  drawing::Panel panel{.quantity = std::move(quantity)};
  for (std::size_t k = 0; k < trials.size(); ++k) {
    const run::Record& record = trials[k]->record;
    const int found = record.find(part, name);
    if (found < 0 || record.instants.empty()) continue;
    const auto c = static_cast<std::size_t>(found);
    const ChannelUnit unit = unit_of(record.channels[c]);
    panel.unit = unit.printed;
    std::vector<double> numbers;
    for (const double si : record.samples_si[c]) numbers.push_back(unit.of_si(si));
    panel.series.push_back(
        {.name = names[k], .t_s = times_of(*trials[k]), .y = keep(std::move(numbers))});
    end_s_ = std::max(end_s_, record.instants.back().si());
  }
  panel.also_show = {0.0};
  if (!panel.series.empty()) plot_.panels.push_back(std::move(panel));
}

void PlotBench::mark_events(const std::function<bool(const run::Event&)>& concerns) {
  for (const run::Event& event : trial_.record.events) {
    if (concerns(event)) plot_.events.push_back({event.at.si(), event.part + " " + event.words});
  }
}

void PlotBench::shade_outages() {
  for (const question::Outage& outage : trial_.outages) {
    plot_.shades.push_back({outage.begins.si(), outage.ends.si(), outage.words});
  }
}

}  // namespace tideover::papers
