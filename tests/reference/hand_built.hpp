/// Small hybrid networks put together by hand, each with one thing that is hard for a solver. They
/// are run by the stepper and by its reference side by side. All numbers are invented.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "network/network.hpp"
#include "part/resistance.hpp"

namespace tideover::reference {

/// A voltage behind a resistance.
struct Source {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double open_v = 12.0;
  double r_ohm = 1.0;

  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    flow[0] = (u[0] - u[1] - open_v) * (1.0 / r_ohm);
    flow[1] = -flow[0];
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    const double in_a = (u[0] - u[1] - open_v) / r_ohm;
    books.supplied_w -= open_v * in_a;
    books.lost_w += in_a * in_a * r_ohm;
  }
};

/// Opens a contact when what it watches has fallen below `low` for a delay, closes it when that has
/// risen above `high` for a delay. With `sign` -1 all is mirrored: it opens above -low.
class LevelSwitch final : public network::Behaviour {
 public:
  struct Levels {
    double low;
    double high;
    double opens_after_s = 0.0;
    double closes_after_s = 0.0;
    double sign = 1.0;
    double closed_s = 100.0;
  };
  LevelSwitch(std::string name, network::NodeId watched, network::Handle<part::Resistance> contact,
              const Levels& levels, bool is_closed);

  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<LevelSwitch>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return name_; }
  [[nodiscard]] int condition_count() const override { return 2; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override { return wake_s_; }
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;

 private:
  void turn(network::Reaction& reaction);

  std::string name_;
  network::NodeId watched_;
  network::Handle<part::Resistance> contact_;
  Levels levels_;
  bool is_closed_;
  double wake_s_ = network::no_wake;
};

/// Does things at stated instants.
class Timetable final : public network::Behaviour {
 public:
  using Deed = std::function<void(network::Reaction&)>;
  struct Entry {
    double time_s;
    std::string words;
    Deed deed;
  };
  explicit Timetable(std::vector<Entry> entries) : entries_(std::move(entries)) {}

  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<Timetable>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return "timetable"; }
  [[nodiscard]] int condition_count() const override { return 0; }
  void conditions(const network::View&, std::span<double>) const override {}
  [[nodiscard]] double wake_s() const override {
    return next_ < entries_.size() ? entries_[next_].time_s : network::no_wake;
  }
  void react(network::Reaction&, int) override {}
  void woken(network::Reaction& reaction) override;

 private:
  std::vector<Entry> entries_;
  std::size_t next_ = 0;
};

/// Marks, once, that a potential has fallen below a threshold; then does what it is told.
class Alarm final : public network::Behaviour {
 public:
  using Deed = Timetable::Deed;
  Alarm(std::string name, network::NodeId node, double below, Deed deed = {})
      : name_(std::move(name)), node_(node), below_(below), deed_(std::move(deed)) {}

  [[nodiscard]] std::unique_ptr<Behaviour> clone() const override {
    return std::make_unique<Alarm>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return name_; }
  [[nodiscard]] int condition_count() const override { return 1; }
  void conditions(const network::View& view, std::span<double> margins) const override {
    margins[0] = is_done_ ? network::never : below_ - view.potential(node_);
  }
  void react(network::Reaction& reaction, int index) override;

 private:
  std::string name_;
  network::NodeId node_;
  double below_;
  Deed deed_;
  bool is_done_ = false;
};

struct HandBuilt {
  std::string name;
  network::Network net;  ///< sealed
  double until_s = 0.0;
};

/// A capacitor on a resistor; two alarms, the second load is thrown off at the first.
[[nodiscard]] HandBuilt decay_with_alarms();
/// Constant power behind a lead that cannot carry it: collapse, lockout, and up again, in a cycle.
[[nodiscard]] HandBuilt collapse_and_lockout();
/// A capacitor charged slowly and emptied quickly between two levels with delays.
[[nodiscard]] HandBuilt relaxation();
/// Two capacitors in a row whose switches act within microseconds of each other.
[[nodiscard]] HandBuilt two_stages();
/// A heater that a thermal switch cuts and a body that cools slowly: microseconds to an hour.
[[nodiscard]] HandBuilt warm_box();
/// Two supplies on one rail through diodes whose junctions warm; one supply goes.
[[nodiscard]] HandBuilt diode_rail();
/// Nodes without any storage that jump at each event, and switches that follow from the jump.
[[nodiscard]] HandBuilt jumping_divider();

[[nodiscard]] std::vector<HandBuilt> all_hand_built();

}  // namespace tideover::reference
