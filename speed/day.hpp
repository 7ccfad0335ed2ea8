/// A day in the life of a supply, as a benchmark runs it: a network and what happens to it from
/// outside. Whatever makes a Day can be timed: a network built by hand, or a build sheet.
#pragma once

#include <algorithm>
#include <span>
#include <string>
#include <vector>

#include "hybrid/stepper.hpp"
#include "network/network.hpp"

namespace tideover::speed {

struct Stretch {
  std::vector<network::Stimulus> stimuli;  ///< at its beginning
  double lasts_s = 0.0;
  bool ends_at_cut_off = false;  ///< then lasts_s is the longest it may take
  double ends_at_s = 1e300;      ///< by the clock, if that is earlier
};

struct Day {
  std::string name;           ///< "day", "burst day"
  network::Network net;       ///< sealed
  std::vector<double> start;  ///< unknowns at time zero
  std::vector<Stretch> stretches;
};

/// Watches for what a Day's figures are made of.
class DayWatch final : public hybrid::Observer {
 public:
  explicit DayWatch(const network::Network& net) : net_(net) {}
  void reacted(double time_s, std::span<const double>, const hybrid::Marks& marks) override {
    for (const hybrid::Mark& mark : marks) events_.push_back({time_s, mark.who + mark.words});
  }
  [[nodiscard]] bool has_seen_enough() override { return waits_ && is_cut_off(); }

  void wait_for_cut_off(bool waits) { waits_ = waits; }
  struct Event {
    double time_s;
    std::string words;
  };
  [[nodiscard]] const std::vector<Event>& events() const { return events_; }

 private:
  [[nodiscard]] bool is_cut_off() const {
    return std::any_of(net_.behaviours().begin(), net_.behaviours().end(),
                       [](const auto& b) { return b->is(network::Fact::CutOff); });
  }

  const network::Network& net_;
  bool waits_ = false;
  std::vector<Event> events_;
};

/// Takes `solver` (a hybrid::Stepper or a reference::IdaRun on day.net) through the day.
template <class Solver>
void live_through(Day& day, Solver& solver, DayWatch& watch) {
  for (const Stretch& stretch : day.stretches) {
    hybrid::Marks marks;
    for (const network::Stimulus& stimulus : stretch.stimuli) {
      day.net.stimulate(solver.time_s(), solver.y(), stimulus, marks);
    }
    if (!stretch.stimuli.empty()) solver.disturbed();
    watch.wait_for_cut_off(stretch.ends_at_cut_off);
    const double end_s = std::min(solver.time_s() + stretch.lasts_s, stretch.ends_at_s);
    static_cast<void>(solver.advance(end_s, watch));
  }
}

}  // namespace tideover::speed
