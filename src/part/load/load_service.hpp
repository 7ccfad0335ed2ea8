/// Whether a load serves: dips, ride-through, booting, and its profile over time.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/capacitor_law.hpp"
#include "part/load/load.hpp"
#include "part/load/load_draw.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

class LoadService final : public network::Behaviour {
 public:
  LoadService(const Load& load, network::Handle<LoadDraw> draw, network::NodeId plus,
              network::NodeId minus);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<LoadService>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 4; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override;
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override;
  [[nodiscard]] bool is(network::Fact fact) const override;
  void settle(network::Reaction& reaction, bool settling) override;

 private:
  /// Off: input too low too long; at first it stays off whatever its input does. Booting: input
  /// back, not yet serving. Riding: input too low, still working. Straining: too high, still
  /// working. Overfed: too high too long; it still draws, whether it works nobody can say.
  enum class Mode { Off, Booting, Serving, Riding, Straining, Overfed };
  struct Stretch {
    std::string name;
    double power_w;
    double lasts_s;
  };

  void enter(network::Reaction& reaction, Mode mode);
  void tell(network::Reaction& reaction, Mode before) const;
  [[nodiscard]] bool serves() const {
    return mode_ == Mode::Serving || mode_ == Mode::Riding || mode_ == Mode::Straining;
  }
  [[nodiscard]] bool has_profile(const std::string& name) const;
  /// From the first stretch of the profile; while a run settles, its mean.
  void begin_profile(network::Reaction& reaction);
  void next_stretch(network::Reaction& reaction);
  void apply_mean(network::Reaction& reaction);

  std::string part_;
  network::Handle<LoadDraw> draw_;
  network::NodeId plus_;
  network::NodeId minus_;
  double lowest_v_;
  double highest_v_;
  double rides_s_;
  double boot_s_;
  std::vector<Stretch> stretches_;

  Mode mode_ = Mode::Off;
  double mode_ends_s_ = network::no_wake;
  bool is_gone_ = true;  ///< out of service for longer than a restart takes
  double gone_at_s_ = network::no_wake;
  bool is_settling_ = false;
  std::string profile_;
  std::size_t stretch_ = 0;
  double stretch_ends_s_ = network::no_wake;
};

}  // namespace tideover::part
