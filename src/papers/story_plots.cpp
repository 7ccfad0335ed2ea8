#include "papers/story_plots.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "papers/plot_bench.hpp"
#include "part/adapter/adapter.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "question/phrases.hpp"

namespace tideover::papers {

using question::Outage;
using question::Trial;
using run::ChannelInfo;

namespace {

constexpr std::size_t most_temperatures = 6;

template <class Kind>
std::set<std::string> names_of(const build::Build& build) {
  std::set<std::string> names;
  for (const auto& part : build.parts) {
    if (dynamic_cast<const Kind*>(part.get()) != nullptr) names.insert(part->name);
  }
  return names;
}

bool is_sampled(const run::Record& record) {
  return record.instants.size() > 1 && record.samples_si.size() == record.channels.size();
}

/// What ends or brings back service; everything else is in the table of events.
bool is_turn(const run::Event& event) {
  using network::Effect;
  return event.effect == Effect::Stops || event.effect == Effect::Breaks ||
         event.effect == Effect::LoadLost || event.effect == Effect::LoadServes;
}

/// What every reader sees from the shading is not marked again.
bool says_more_than_shade(const run::Event& event) { return !question::is_of_the_mains(event); }

/// One panel for each load, with the range it accepts.
void add_load_panels(const build::Build& build, PlotBench& bench, double height_mm = 20.0) {
  for (const auto& part : build.parts) {
    const auto* const load = dynamic_cast<const part::Load*>(part.get());
    if (load == nullptr) continue;
    drawing::Panel* const panel =
        bench.add_panel("At " + load->name, [&](const ChannelInfo& channel, std::string& name) {
          name = "voltage";
          return channel.part == load->name && channel.name == "input voltage";
        });
    if (panel == nullptr) continue;
    panel->height_mm = height_mm;
    panel->also_show = {0.0, load->accepts.high().si()};
    panel->bands.push_back({load->accepts.low().si(), load->accepts.high().si(), "accepted"});
  }
}

/// The parts that get warmest, at most `most_temperatures` of them.
std::set<std::size_t> warmest(const run::Record& record) {
  std::vector<std::size_t> channels;
  for (std::size_t c = 0; c < record.channels.size(); ++c) {
    if (record.channels[c].is_temperature) channels.push_back(c);
  }
  std::stable_sort(channels.begin(), channels.end(), [&](std::size_t one, std::size_t other) {
    return record.highest[one].value_si > record.highest[other].value_si;
  });
  // Cells matter however cool they stay.
  std::stable_partition(channels.begin(), channels.end(), [&](std::size_t c) {
    return record.channels[c].name == "cell temperature";
  });
  if (channels.size() > most_temperatures) channels.resize(most_temperatures);
  return {channels.begin(), channels.end()};
}

void add_temperature_panel(const Trial& trial, PlotBench& bench) {
  const std::set<std::size_t> picked = warmest(trial.record);
  std::size_t next = 0;
  drawing::Panel* const panel =
      bench.add_panel("Temperatures", [&](const ChannelInfo& channel, std::string& name) {
        const std::string suffix = " temperature";
        const auto at = channel.name.rfind(suffix);
        name = channel.part + " " + channel.name.substr(0, at);
        if (channel.name == "temperature") name = channel.part;
        return picked.contains(next++);
      });
  if (panel != nullptr) panel->height_mm = 28.0;
}

Story voltages_and_currents(const build::Build& build, const Trial& trial) {
  PlotBench bench(trial);
  add_load_panels(build, bench);
  drawing::Panel* const cells =
      bench.add_panel("Cells", [&](const ChannelInfo& channel, std::string& name) {
        name = channel.name.substr(0, channel.name.rfind(' '));
        return channel.name.starts_with("group ") && channel.name.ends_with(" voltage");
      });
  if (cells != nullptr) cells->height_mm = 26.0;
  const auto packs = names_of<part::Pack>(build);
  const auto adapters = names_of<part::Adapter>(build);
  drawing::Panel* const currents =
      bench.add_panel("Currents", [&](const ChannelInfo& channel, std::string& name) {
        if (channel.name == "discharge current" && packs.contains(channel.part)) {
          name = channel.part + " gives";
          return true;
        }
        return channel.name == "output current" && adapters.contains(channel.part);
      });
  if (currents != nullptr) {
    currents->also_show = {0.0};
    currents->height_mm = 26.0;
    bench.trim_peaks();
  }
  bench.plot().title = "Voltages and currents through the outage";
  bench.plot().description = "Time runs to the right; hatched while the mains is away.";
  bench.plot().time = {{.from_s = 0.0, .to_s = bench.end_s()}};
  bench.shade_outages();
  bench.mark_events(is_turn);
  return {draw(bench.plot()),
          fmt::format("Voltages and currents, {}. A current the pack gives is above zero; below it "
                      "is being charged. Current peaks of less than a second are cut off here.",
                      trial.words)};
}

std::optional<Story> warmth_and_head_room(const build::Build& build, const Trial& trial) {
  PlotBench bench(trial);
  const auto adapters = names_of<part::Adapter>(build);
  drawing::Panel* const shares =
      bench.add_panel("Adapters' share", [&](const ChannelInfo& channel, std::string&) {
        return channel.name == "share of rating" && adapters.contains(channel.part);
      });
  if (shares != nullptr) {
    bench.trim_peaks(0.0);
    shares->also_show = {0.0, 100.0};
    shares->bands.push_back({100.0, HUGE_VAL, "above rating"});
    shares->height_mm = 20.0;
  }
  add_temperature_panel(trial, bench);
  if (bench.plot().panels.empty()) return std::nullopt;
  bench.plot().title = "Adapters' share of their rating, and temperatures";
  bench.plot().time = {{.from_s = 0.0, .to_s = bench.end_s()}};
  bench.shade_outages();
  return Story{
      draw(bench.plot()),
      fmt::format("What the adapters give of what they are rated for (peaks of less than a "
                  "second cut off), and the warmest parts, {}.",
                  trial.words)};
}

/// The time around a change of the mains in which things happen: from the change itself, or from
/// the first event after it, to the last event that follows within a quarter of a second.
drawing::TimeStretch closely_around(const Trial& trial, double at_s, bool from_change,
                                    std::string words) {
  constexpr double waits_s = 5.0;
  constexpr double follows_s = 0.25;
  double first_s = at_s;
  double last_s = at_s + 0.04;
  bool is_first = true;
  for (const run::Event& event : trial.record.events) {
    const double event_s = event.at.si();
    if (event_s < at_s || event_s > at_s + waits_s || question::is_of_the_mains(event)) continue;
    if (is_first && !from_change) first_s = event_s;
    if (is_first) last_s = std::max(last_s, event_s);
    is_first = false;
    if (event_s <= first_s + follows_s) last_s = std::max(last_s, event_s);
  }
  const double length_s = last_s - first_s;
  return {.from_s = std::max(0.0, first_s - 0.2 * length_s),
          .to_s = last_s + 0.4 * length_s,
          .counted_from_s = at_s,
          .words = std::move(words)};
}

void add_switching_panels(const build::Build& build, PlotBench& bench) {
  drawing::Panel* const coils =
      bench.add_panel("Coils", [](const ChannelInfo& channel, std::string& name) {
        name = channel.part;
        return channel.name == "coil voltage";
      });
  if (coils != nullptr) coils->height_mm = 20.0;
  const auto adapters = names_of<part::Adapter>(build);
  drawing::Panel* const sources =
      bench.add_panel("Adapters", [&](const ChannelInfo& channel, std::string&) {
        return channel.name == "output voltage" && adapters.contains(channel.part);
      });
  if (sources != nullptr) sources->height_mm = 20.0;
}

}  // namespace

std::optional<Story> energy_story(const question::Prediction& prediction) {
  if (!is_sampled(prediction.usual.record)) return std::nullopt;
  PlotBench bench(prediction.usual);
  for (const ChannelInfo& channel : prediction.usual.record.channels) {
    if (channel.name != "energy left") continue;
    bench.add_comparison("Energy left", channel.part, channel.name,
                         {&prediction.usual, &prediction.worn}, {"as they are", "end of life"});
  }
  if (bench.plot().panels.empty()) return std::nullopt;
  for (drawing::Panel& panel : bench.plot().panels) panel.height_mm = 26.0;
  if (const Outage* const outage = prediction.usual.judged_outage()) {
    bench.plot().events.push_back({outage->begins.si(), "the mains goes"});
  }
  const auto mark_return = [&](const Trial& trial, const char* words) {
    const Outage* const outage = trial.judged_outage();
    if (outage != nullptr && outage->mains_returns) {
      bench.plot().events.push_back({outage->ends.si(), words});
    }
  };
  mark_return(prediction.worn, "mains is back (end of life)");
  mark_return(prediction.usual, "mains is back (as they are)");
  bench.plot().title = "Energy left in the cells";
  bench.plot().time = {{.from_s = 0.0, .to_s = bench.end_s()}};
  return Story{draw(bench.plot()), "Energy left in the cells: " + prediction.usual.words +
                                       ", and " + prediction.worn.words + "."};
}

std::vector<Story> whole_story(const build::Build& build, const Trial& trial) {
  std::vector<Story> stories;
  if (!is_sampled(trial.record)) return stories;
  PlotBench probe(trial);
  if (probe.end_s() <= 0.0) return stories;
  if (auto warmth = warmth_and_head_room(build, trial)) stories.push_back(std::move(*warmth));
  stories.push_back(voltages_and_currents(build, trial));
  return stories;
}

std::optional<Story> short_story(const build::Build& build, const Trial& trial) {
  constexpr double little_mm = 13.0;
  if (!is_sampled(trial.record)) return std::nullopt;
  PlotBench bench(trial);
  add_load_panels(build, bench, little_mm);
  drawing::Panel* const left =
      bench.add_panel("Energy left", [](const ChannelInfo& channel, std::string& name) {
        name = channel.part;
        return channel.name == "energy left";
      });
  if (left != nullptr) {
    left->height_mm = little_mm;
    left->also_show = {0.0};
  }
  if (bench.plot().panels.empty() || bench.end_s() <= 0.0) return std::nullopt;
  bench.plot().title = "Voltage at the devices and energy left, " + trial.words;
  bench.plot().time = {{.from_s = 0.0, .to_s = bench.end_s()}};
  bench.shade_outages();
  bench.mark_events([](const run::Event& event) {
    return event.effect == network::Effect::LoadLost || event.effect == network::Effect::LoadServes;
  });
  return Story{draw(bench.plot()),
               "Voltage at the devices and energy left in the cells, " + trial.words + "."};
}

namespace {

/// The loss and the return of the mains, enlarged; one of them alone where the outage is so short
/// that they would overlap, or where nothing lies between them and the ends of the record.
std::vector<drawing::TimeStretch> changeover_times(const Trial& trial, const Outage& outage) {
  std::vector<drawing::TimeStretch> times;
  times.push_back(closely_around(trial, outage.begins.si(), true, "the mains goes"));
  if (!outage.mains_returns) return times;
  const drawing::TimeStretch back =
      closely_around(trial, outage.ends.si(), false, "the mains is back");
  times.front().to_s = std::min(times.front().to_s, back.from_s);
  if (times.front().to_s <= times.front().from_s) times.clear();
  times.push_back(back);
  return times;
}

}  // namespace

std::optional<Story> changeover_story(const build::Build& build, const Trial& trial) {
  const Outage* const outage = trial.judged_outage();
  if (outage == nullptr || !is_sampled(trial.record)) return std::nullopt;
  PlotBench bench(trial);
  add_load_panels(build, bench);
  add_switching_panels(build, bench);
  if (bench.plot().panels.empty()) return std::nullopt;
  bench.plot().title = "The changeover";
  bench.plot().description = "The instants around the loss and the return of the mains, enlarged.";
  bench.plot().time = changeover_times(trial, *outage);
  bench.shade_outages();
  bench.mark_events(says_more_than_shade);
  return Story{draw(bench.plot()),
               fmt::format("The instants of the changeover, {}. Each half counts from the moment "
                           "the mains goes or comes back.",
                           trial.words)};
}

}  // namespace tideover::papers
