/// Gathers what one plot shows and keeps its numbers while it is drawn.
#pragma once

#include <cmath>
#include <deque>
#include <functional>
#include <string>
#include <vector>

#include "drawing/plot.hpp"
#include "question/trial.hpp"

namespace tideover::papers {

class PlotBench {
 public:
  explicit PlotBench(const question::Trial& trial);

  /// Picks channels; `name` is what the line is called.
  using Pick = std::function<bool(const run::ChannelInfo& channel, std::string& name)>;
  /// A panel with every channel picked, in the unit of the first; none if nothing is picked.
  /// Returns the panel for what is still to be said of it, or null.
  drawing::Panel* add_panel(std::string quantity, const Pick& pick);
  /// Cuts what sticks out of the panel added last for less than a second in all: a capacitor that
  /// fills in a millisecond would flatten hours. And whatever lies below `floor`.
  void trim_peaks(double floor = -HUGE_VAL);
  /// A panel with the channel `part`, `name` of several trials.
  void add_comparison(std::string quantity, const std::string& part, const std::string& name,
                      const std::vector<const question::Trial*>& trials,
                      const std::vector<std::string>& names);

  /// Events and times without mains; `concerns` says which events matter.
  void mark_events(const std::function<bool(const run::Event&)>& concerns);
  void shade_outages();

  [[nodiscard]] double end_s() const { return end_s_; }
  [[nodiscard]] drawing::Plot& plot() { return plot_; }

 private:
  std::span<const double> keep(std::vector<double> numbers);
  std::span<const double> times_of(const question::Trial& trial);

  const question::Trial& trial_;
  double end_s_ = 0.0;
  std::deque<std::vector<double>> kept_;
  drawing::Plot plot_;
};

}  // namespace tideover::papers
