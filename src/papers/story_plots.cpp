#include "papers/story_plots.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "build/parts_of.hpp"
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

/// One panel for each load, with the range it accepts.
void add_load_panels(const build::Build& build, PlotBench& bench, double height_mm = 20.0) {
  for (const part::Load* load : build::parts_of<part::Load>(build)) {
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

}  // namespace tideover::papers
