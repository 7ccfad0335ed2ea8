/// What an adapter does when the mains goes and comes, when it is unplugged, and in overload.
#pragma once

#include <memory>
#include <string>

#include "network/behaviour.hpp"
#include "network/network.hpp"
#include "part/adapter/adapter.hpp"
#include "part/resistance.hpp"

namespace tideover::part {

class AdapterControl final : public network::Behaviour {
 public:
  struct Places {
    network::NodeId output;  ///< at the output capacitor
    network::NodeId minus;
    network::StateId stored;
    network::StateId rise;
  };
  AdapterControl(const Adapter& adapter, network::Handle<AdapterStage> stage,
                 network::Handle<Resistance> plug, const Places& places);

  [[nodiscard]] std::unique_ptr<network::Behaviour> clone() const override {
    return std::make_unique<AdapterControl>(*this);
  }
  [[nodiscard]] std::string_view part() const override { return part_; }
  [[nodiscard]] int condition_count() const override { return 3; }
  void conditions(const network::View& view, std::span<double> margins) const override;
  [[nodiscard]] double wake_s() const override { return ends_s_; }
  void react(network::Reaction& reaction, int index) override;
  void woken(network::Reaction& reaction) override;
  void stimulated(network::Reaction& reaction, const network::Stimulus& stimulus) override;

 private:
  /// Straining: on, but its output is too low for too long if this lasts. Pausing: off between
  /// two tries. Dark: off, no mains. Waking: mains is back, output not yet rising.
  enum class Mode { Running, Straining, Pausing, Dark, Waking };

  void lose_mains(network::Reaction& reaction);
  void regain_mains(network::Reaction& reaction);
  void stop(network::Reaction& reaction, Mode mode, double lasts_s);
  void begin_rise(network::Reaction& reaction);
  void set_plug(network::Reaction& reaction, bool in);

  std::string part_;
  network::Handle<AdapterStage> stage_;
  network::Handle<Resistance> plug_;
  Places places_;
  double set_v_;
  double full_j_;
  double plug_s_;
  double start_delay_s_;
  double rise_s_;
  bool hiccups_;
  double hiccup_v_;
  double on_s_;
  double off_s_;

  Mode mode_ = Mode::Running;
  bool mains_ = true;
  double ends_s_ = network::no_wake;
};

}  // namespace tideover::part
