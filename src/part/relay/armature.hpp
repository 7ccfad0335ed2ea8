/// What moves in a relay: when the armature is pulled and let go, how long its contacts travel and
/// how they bounce.
///
/// Pulling and letting go are questions of coil current, not of voltage. The contact that is closed
/// opens as soon as the armature moves; after the time of travel the other one touches, bounces and
/// stays (break before make). If the current comes back in mid-travel the armature turns round and
/// takes as long back as it has come.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/relay/coil_law.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

/// The two contacts of one pole.
struct Pole {
  network::Handle<WarmResistance> rest;
  network::Handle<WarmResistance> work;
};

struct ArmatureTimes {
  double travel_s = 3e-3;         ///< from the rest side to the work side
  double return_travel_s = 3e-3;  ///< and back
  double bounce_s = 1e-3;         ///< from first touch to lasting contact; 0: none
};

/// Coil currents at which the armature starts to move.
struct ArmatureThresholds {
  double pick_up_a = 0.0;
  double release_a = 0.0;
};

class Armature final : public network::Behaviour {
 public:
  /// The armature begins on the rest side, with the rest contacts closed.
  Armature(std::string part, network::StateId coil_current, ArmatureThresholds thresholds,
           ArmatureTimes times, std::vector<Pole> poles, double contact_ohm);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<Armature>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 1; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override { return wake_s_; }
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;

 private:
  enum class Mode { Resting, ToWork, Working, ToRest };

  [[nodiscard]] bool is_pulled() const { return mode_ == Mode::ToWork || mode_ == Mode::Working; }
  /// Where the armature is: 0 at the rest side, 1 at the work side.
  [[nodiscard]] double position(double time_s) const;
  void set_off(network::Reaction& reaction, Mode mode);
  void arrive(network::Reaction& reaction);
  void bounce(network::Reaction& reaction);
  void close(network::Reaction& reaction, bool rest, bool work) const;

  std::string part_;
  network::StateId coil_current_;
  ArmatureThresholds thresholds_;
  ArmatureTimes times_;
  std::vector<Pole> poles_;
  double closed_s_;

  Mode mode_ = Mode::Resting;
  double started_s_ = 0.0;  ///< when the present travel began, and from where
  double started_from_ = 0.0;
  double touched_s_ = 0.0;
  std::size_t bounces_done_ = 0;
  double wake_s_ = network::no_wake;
};

}  // namespace tideover::part
