#include "run/settle.hpp"

#include <algorithm>

#include "hybrid/stepper.hpp"

namespace tideover::run {

namespace {

/// Settling needs the end state, not the way there.
constexpr double settling_tolerance = 1e-5;

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

}  // namespace

Settled settle(Circuit& circuit, const build::Build& build, quantity::Second lasts,
               bool with_profiles) {
  Settled settled{circuit.network.start(), {hybrid::Ended::AtTime, 0.0, ""}};
  hybrid::Marks marks;
  const double begin_s = build.start.is_settled ? -lasts.si() : 0.0;
  circuit.network.settle(begin_s, settled.y, true, marks);
  if (build.start.is_settled) {
    hybrid::Stepper stepper(circuit.network, {.relative_tolerance = settling_tolerance}, begin_s,
                            settled.y);
    hybrid::Observer nobody;
    settled.outcome = stepper.advance(0.0, nobody);
    settled.y.assign(stepper.y().begin(), stepper.y().end());
  }
  if (with_profiles) circuit.network.settle(0.0, settled.y, false, marks);
  state_start(circuit, build, settled.y);
  return settled;
}

}  // namespace tideover::run
