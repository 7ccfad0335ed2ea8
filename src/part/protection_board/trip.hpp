/// A limit with a delay, a latch and a release: what all the watches of a board have in common.
///
///     calm --over the limit--> arming --delay--> tripped --release holds--> leaving --delay-->
///     calm
///               arming --back below--> calm        leaving --release fails--> tripped
#pragma once

#include <string>

#include "part/protection_board/board_gates.hpp"

namespace tideover::part {

struct TripTimes {
  double delay_s = 0.0;          ///< the limit must be exceeded this long
  double release_delay_s = 0.0;  ///< the release must hold this long
};

class Trip : public network::Behaviour {
 public:
  /// `bit` is this trip's own among the reasons of its board.
  Trip(BoardGates gates, Direction direction, unsigned bit, TripTimes times)
      : gates_(std::move(gates)), direction_(direction), bit_(bit), times_(times) {}

  [[nodiscard]] std::string_view part() const override { return gates_.part; }
  [[nodiscard]] int condition_count() const override { return 2; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override { return ends_s_; }
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;
  [[nodiscard]] bool is(network::Fact fact) const override;

 protected:
  [[nodiscard]] const BoardGates& gates() const { return gates_; }
  [[nodiscard]] bool has_tripped() const {
    return mode_ == Mode::Tripped || mode_ == Mode::Leaving;
  }
  /// Positive over the limit.
  [[nodiscard]] virtual double over(const network::View& view) const = 0;
  /// Positive while the board may let go.
  [[nodiscard]] virtual double may_release(const network::View& view) const = 0;
  /// How far each of the two must turn negative to count as over.
  [[nodiscard]] virtual double over_hysteresis() const = 0;
  [[nodiscard]] virtual double release_hysteresis() const = 0;
  /// "group 3 is empty"
  [[nodiscard]] virtual std::string why(const network::View& view) const = 0;

 private:
  enum class Mode { Calm, Arming, Tripped, Leaving };
  void enter(network::Reaction& reaction, Mode mode);

  BoardGates gates_;
  Direction direction_;
  unsigned bit_;
  TripTimes times_;
  Mode mode_ = Mode::Calm;
  double ends_s_ = network::no_wake;
};

}  // namespace tideover::part
