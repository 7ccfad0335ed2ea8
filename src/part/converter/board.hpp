/// What converters and chargers have in common: a small board with a power stage on it.
#pragma once

#include <vector>

#include "part/converter/loss_fit.hpp"
#include "part/converter/power_stage.hpp"
#include "part/installer.hpp"
#include "part/knee_law.hpp"
#include "part/part.hpp"

namespace tideover::part {

enum class Topology { StepDown, StepUp, StepUpDown, Linear };

/// One reading of a board's losses at the bench.
struct MeasuredPoint final : Described {
  [[nodiscard]] const Description& description() const override { return describe(); }
  [[nodiscard]] static const Description& describe();

  quantity::Value<quantity::Volt> input;
  quantity::Value<quantity::Ampere> input_current;  ///< this or the efficiency
  quantity::Value<quantity::Ratio> efficiency;
  quantity::Value<quantity::Volt> output;  ///< 0: the board's set voltage
  quantity::Value<quantity::Ampere> output_current;
};

/// What a board is set to.
struct SetPoint {
  quantity::Volt voltage;
  quantity::Ampere current_limit;
  quantity::Ohm output_resistance;
  quantity::Siemens output_leak;
};

/// Where an installed board stands in the network.
struct PlacedBoard {
  network::Handle<PowerStage> stage;
  network::StateId rise;
  network::StateId capacitor;  ///< voltage of the output capacitor
  network::NodeId in_plus;
  network::NodeId in_minus;
  network::NodeId out_plus;
  network::NodeId out_minus;
  network::NodeId body;
  /// Current of the power stage into its output [A], with the law as it stands in the network.
  [[nodiscard]] double output_a(const PowerStage& law, const network::View& view) const;
};

/// What keeps a board off whatever it is set to, for its control.
struct BoardLimits {
  double starts_v = 0.0;  ///< input at which it comes on
  double stops_v = 0.0;   ///< input below which the lockout turns it off
  double hot_k = 0.0;
  double cool_k = 0.0;
  double pause_s = 0.0;  ///< off at least so long after a lockout
  double idle_a = 0.0;   ///< input current while on, beside what it converts
  double off_a = 0.0;    ///< input current while off
};

class ConverterBoard : public Part {
 public:
  ConverterBoard();
  [[nodiscard]] std::vector<Terminal> terminals() const override;
  [[nodiscard]] Symbol symbol() const override;
  [[nodiscard]] std::vector<std::vector<std::string>> joined_inside() const override;
  [[nodiscard]] std::vector<TestPoint> test_points() const override;
  [[nodiscard]] std::vector<std::string> remarks() const override;

  Topology topology = Topology::StepDown;
  quantity::Span<quantity::Volt> accepts{quantity::Volt::of_si(4.5), quantity::Volt::of_si(28.0)};
  quantity::Value<quantity::Ampere> idle_draw{quantity::Ampere::of_si(5e-3)};
  quantity::Value<quantity::Volt> linear_loss{quantity::Volt::of_si(0.3)};
  quantity::Value<quantity::Ohm> square_loss{quantity::Ohm::of_si(0.08)};
  std::vector<MeasuredPoint> measured;
  quantity::Value<quantity::Ratio> highest_duty;  ///< 0: 95 %, step-up and -down 85 %
  quantity::Value<quantity::Ohm> path_resistance{quantity::Ohm::of_si(0.1)};
  quantity::Value<quantity::Volt> drop;             ///< 0: 1.5 V if linear, else none
  quantity::Value<quantity::Volt> lockout;          ///< 0: 7 % below the lowest input
  quantity::Value<quantity::Volt> lockout_release;  ///< 0: the lowest input
  quantity::Value<quantity::Ampere> input_limit{quantity::Ampere::of_si(5.0)};
  quantity::Value<quantity::Ampere> off_draw{quantity::Ampere::of_si(0.2e-3)};
  quantity::Value<quantity::Second> restart_delay{quantity::Second::of_si(5e-3)};
  quantity::Value<quantity::Second> soft_start{quantity::Second::of_si(2e-3)};
  quantity::Value<quantity::Farad> input_capacitance{quantity::Farad::of_si(100e-6)};
  quantity::Value<quantity::Ohm> input_esr{quantity::Ohm::of_si(0.05)};
  quantity::Value<quantity::Farad> output_capacitance{quantity::Farad::of_si(220e-6)};
  quantity::Value<quantity::Ohm> output_esr{quantity::Ohm::of_si(0.04)};
  quantity::Value<quantity::Temperature> shutdown_at{quantity::Temperature::of_celsius(125.0)};
  quantity::Value<quantity::Temperature> restart_at{quantity::Temperature::of_celsius(105.0)};
  quantity::Value<quantity::Volt> diode_drop;  ///< 0: 0.45 V in a step-up, else 0.7 V
  bool blocks_back = false;
  bool isolated = false;

  /// What the board is set to.
  [[nodiscard]] virtual SetPoint set_point() const = 0;
  /// Losses as the sheet and the readings on it say.
  [[nodiscard]] LossFit losses() const;
  /// The law of the board, on.
  [[nodiscard]] PowerStage stage() const;
  [[nodiscard]] BoardLimits limits() const;
  /// Lowest input at which it still holds `out` at output current `i`.
  [[nodiscard]] quantity::Volt lowest_input(quantity::Volt out, quantity::Ampere i) const;

 protected:
  /// Elements and channels that all boards have. The board starts off and empty.
  [[nodiscard]] PlacedBoard place(Installer& installer) const;
  [[nodiscard]] std::vector<std::string> contradictions_of_board() const;
  [[nodiscard]] std::vector<FailureMode> failure_modes_of_board() const;

 private:
  [[nodiscard]] double duty_limit() const;
  void place_reverse_path(Installer& installer, const PlacedBoard& at) const;
  void watch(Installer& installer, const PlacedBoard& at) const;
};

/// `topology`, `accepts`, losses, limits and capacitors: what all boards describe.
[[nodiscard]] std::vector<Field> fields_of_converter_boards();

}  // namespace tideover::part
