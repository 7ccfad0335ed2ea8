/// The limits a board watches: group voltages, currents, temperature.
///
/// Common practice of protection circuits, no source: a charger is felt by p_minus being pushed
/// below b_minus, a load by its being pulled above; both are felt across the MOSFET that is off.
/// Currents are felt across a shunt, so that a body diode's drop is not taken for a current.
#pragma once

#include "part/protection_board/protection_board.hpp"
#include "part/protection_board/trip.hpp"

namespace tideover::part {

/// What p_minus must differ from b_minus for a charger, or a load on a body diode, to be felt.
inline constexpr double felt_v = 0.1;
/// With the discharge cut a load pulls p_minus up to b_plus; below this it counts as taken off.
inline constexpr double load_gone_v = 1.0;

/// A group below its under-voltage cuts the discharge.
class EmptyTrip final : public Trip {
 public:
  EmptyTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit);
  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<EmptyTrip>(*this);
  }

 private:
  [[nodiscard]] double over(const network::View& view) const override;
  [[nodiscard]] double may_release(const network::View& view) const override;
  [[nodiscard]] double over_hysteresis() const override;
  [[nodiscard]] double release_hysteresis() const override;
  [[nodiscard]] std::string why(const network::View& view) const override;

  double limit_v_;
  double release_v_;
  UnderVoltageRelease released_by_;
};

/// A group above its over-voltage cuts the charge.
class FullTrip final : public Trip {
 public:
  FullTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit);
  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<FullTrip>(*this);
  }
  [[nodiscard]] bool is(network::Fact fact) const override;

 private:
  [[nodiscard]] double over(const network::View& view) const override;
  [[nodiscard]] double may_release(const network::View& view) const override;
  [[nodiscard]] double over_hysteresis() const override;
  [[nodiscard]] double release_hysteresis() const override;
  [[nodiscard]] std::string why(const network::View& view) const override;

  double limit_v_;
  double release_v_;
  OverVoltageRelease released_by_;
};

/// What one current limit is.
struct CurrentLimit {
  Direction direction = Direction::Discharge;
  double limit_a = 1e3;
  double delay_s = 0.0;
  std::string why;  ///< "over-current"
};

/// A current above a limit cuts its direction.
class CurrentTrip final : public Trip {
 public:
  CurrentTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit, CurrentLimit limit);
  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<CurrentTrip>(*this);
  }

 private:
  [[nodiscard]] double over(const network::View& view) const override;
  [[nodiscard]] double may_release(const network::View& view) const override;
  [[nodiscard]] double over_hysteresis() const override;
  [[nodiscard]] double release_hysteresis() const override;
  [[nodiscard]] std::string why(const network::View& view) const override;

  CurrentLimit limit_;
  FaultRelease released_by_;
};

/// A temperature outside a window cuts one direction.
class TemperatureTrip final : public Trip {
 public:
  TemperatureTrip(const ProtectionBoard& board, BoardGates gates, unsigned bit, Direction direction,
                  network::NodeId felt);
  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<TemperatureTrip>(*this);
  }

 private:
  [[nodiscard]] double over(const network::View& view) const override;
  [[nodiscard]] double may_release(const network::View& view) const override;
  [[nodiscard]] double over_hysteresis() const override { return 0.1; }
  [[nodiscard]] double release_hysteresis() const override { return 0.1; }
  [[nodiscard]] std::string why(const network::View& view) const override;

  network::NodeId felt_;
  double low_k_;
  double high_k_;
  double hysteresis_k_;
};

}  // namespace tideover::part
