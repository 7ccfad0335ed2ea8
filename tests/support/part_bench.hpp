/// A bench for parts: a few of them on named points, taken through time by the stepper.
#pragma once

#include <map>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "base/contract.hpp"
#include "hybrid/stepper.hpp"
#include "network/network.hpp"
#include "part/installer.hpp"

namespace tideover::tests {

/// Parts are installed first, then the bench is started. All air is at one temperature.
class PartBench final : public hybrid::Observer {
 public:
  explicit PartBench(double air_c = 25.0, double relative_tolerance = 1e-6)
      : tolerance_(relative_tolerance),
        air_start_(quantity::Temperature::of_celsius(air_c)),
        air_(net.add_thermal_node("air", 1e9, air_start_.si())) {}

  /// The node of a named point; "0" is the reference.
  network::NodeId point(const std::string& name) {
    if (name == "0") return network::reference_node;
    const auto at = points_.find(name);
    if (at != points_.end()) return at->second;
    return points_[name] = net.add_electrical_node(name);
  }
  /// `wiring`: terminal -> point; terminals not named there hang free.
  void install(const part::Part& part, const std::map<std::string, std::string>& wiring) {
    std::map<std::string, network::NodeId> nodes;
    for (const part::Terminal& terminal : part.terminals()) {
      const auto at = wiring.find(terminal.name);
      nodes[terminal.name] =
          point(at != wiring.end() ? at->second : part.name + "." + terminal.name);
    }
    part::Installer installer(net, part, nodes, air_, air_, air_start_, instruments);
    part.install(installer);
  }

  void start() {
    net.seal();
    stepper_ = std::make_unique<hybrid::Stepper>(
        net, hybrid::Settings{.relative_tolerance = tolerance_}, 0.0, net.start());
  }
  /// Goes on for so long.
  void go(double for_s) {
    const auto outcome = stepper_->advance(stepper_->time_s() + for_s, *this);
    INFO("why: " << outcome.why);
    REQUIRE(outcome.ended == hybrid::Ended::AtTime);
  }
  void stimulate(const network::Stimulus& stimulus) {
    net.stimulate(stepper_->time_s(), stepper_->y(), stimulus, marks);
    stepper_->disturbed();
  }
  /// To be called after a law was changed by the test.
  void disturbed() { stepper_->disturbed(); }
  [[nodiscard]] double time_s() const { return stepper_->time_s(); }
  [[nodiscard]] network::View view() const { return net.view(stepper_->time_s(), stepper_->y()); }
  [[nodiscard]] double volts(const std::string& point_name) {
    return view().potential(point(point_name));
  }
  /// Present value of a channel, SI.
  [[nodiscard]] double reads(const std::string& part, const std::string& channel) const {
    for (const part::Channel& c : instruments.channels) {
      if (c.part == part && c.name == channel) return c.value_si(net, view());
    }
    FAIL("no channel " << part << " " << channel);
    return 0.0;
  }
  [[nodiscard]] bool is(const std::string& part, network::Fact fact) const {
    for (const auto& behaviour : net.behaviours()) {
      if (behaviour->part() == part && behaviour->is(fact)) return true;
    }
    return false;
  }
  /// When `words` were last said by `part`; negative if never.
  [[nodiscard]] double said_s(const std::string& part, const std::string& words) const {
    double when = -1.0;
    for (const hybrid::Mark& mark : marks) {
      if (mark.who == part && mark.words == words) when = mark.time_s;
    }
    return when;
  }
  [[nodiscard]] int times_said(const std::string& part, const std::string& words) const {
    int count = 0;
    for (const hybrid::Mark& mark : marks) count += int{mark.who == part && mark.words == words};
    return count;
  }

  void reacted(double, std::span<const double>, const hybrid::Marks& said) override {
    marks.insert(marks.end(), said.begin(), said.end());
  }

  network::Network net;
  part::Instruments instruments;
  hybrid::Marks marks;

 private:
  double tolerance_;
  quantity::Temperature air_start_;
  network::NodeId air_;
  std::map<std::string, network::NodeId> points_;
  std::unique_ptr<hybrid::Stepper> stepper_;
};

/// Ports: plus, minus. A laboratory supply: a voltage behind a resistance, which takes current as
/// readily as it gives it.
struct BenchSupply {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double volts = 12.0;
  double ohms = 0.01;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = (u[0] - u[1] - volts) * (1.0 / ohms);
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double in_a = (u[0] - u[1] - volts) / ohms;
    books.supplied_w -= volts * in_a;
    books.lost_w += ohms * in_a * in_a;
  }
};

/// Plain values for tests: what a sheet would state.
template <class Q>
[[nodiscard]] quantity::Value<Q> stated(Q exact) {
  quantity::Value<Q> value{exact};
  value.given = true;
  return value;
}

}  // namespace tideover::tests
