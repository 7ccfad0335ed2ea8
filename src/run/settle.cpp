#include "run/settle.hpp"

#include <algorithm>

#include "hybrid/stepper.hpp"

namespace tideover::run {

namespace {

/// Settling needs the end state, not the way there.
constexpr double settling_tolerance = 3e-6;
/// A sound build has switched everything it will within some tens of reactions; a supply that
/// starts in hiccups for an hour takes 4000.
constexpr long most_reactions = 5000;

/// Lets whoever looks on stop the settling.
class Onlooker final : public hybrid::Observer {
 public:
  Onlooker(base::Progress& progress, double begin_s) : progress_(progress), begin_s_(begin_s) {}
  void stepped(const hybrid::Step& step) override {
    progress_.report(1.0 - step.end_s / begin_s_, "settling on the mains");
    stop_asked_ = progress_.stop_asked();
  }
  [[nodiscard]] bool has_seen_enough() override { return stop_asked_; }

 private:
  base::Progress& progress_;
  double begin_s_;
  bool stop_asked_ = false;
};

void state_start(Circuit& circuit, const build::Build& build, std::span<double> y) {
  hybrid::Marks marks;
  for (const auto& [pack, charge] : build.start.charge) {
    circuit.network.stimulate(
        0.0, y, {.what = network::Stimulus::What::ChargeTo, .word = pack, .amount = charge.si()},
        marks);
  }
  const auto& names = circuit.network.unknown_names();
  for (const auto& [part, temperature] : build.start.temperature) {
    const auto body = std::find(names.begin(), names.end(), part + ".body");
    if (body != names.end()) {
      y[static_cast<std::size_t>(body - names.begin())] = temperature.si();
    }
  }
}

/// What a defect does to a build is part of its run: with one there from the start it begins at
/// rest.
bool begins_settled(const build::Build& build) {
  return build.start.is_settled && std::ranges::all_of(build.defects, &build::Defect::arises_later);
}

}  // namespace

Settled settle(Circuit& circuit, const build::Build& build, quantity::Second lasts,
               base::Progress& progress, bool with_profiles) {
  Settled settled{circuit.network.start(), {hybrid::Ended::AtTime, 0.0, ""}};
  hybrid::Marks marks;
  const bool settles = begins_settled(build);
  const double begin_s = settles ? -lasts.si() : 0.0;
  circuit.network.settle(begin_s, settled.y, true, marks);
  if (settles) {
    const hybrid::Settings stepping{.relative_tolerance = settling_tolerance,
                                    .most_reactions = most_reactions};
    hybrid::Stepper stepper(circuit.network, stepping, begin_s, settled.y);
    Onlooker onlooker(progress, begin_s);
    settled.outcome = stepper.advance(0.0, onlooker);
    settled.y.assign(stepper.y().begin(), stepper.y().end());
  }
  if (with_profiles) circuit.network.settle(0.0, settled.y, false, marks);
  state_start(circuit, build, settled.y);
  return settled;
}

}  // namespace tideover::run
