/// The day of examples/tide-hut: half an hour of mains, none until the board cuts the pack off,
/// half an hour more of darkness, then mains to the end of 24 hours.
#pragma once

#include <memory>
#include <stdexcept>

#include "build/read_sheet.hpp"
#include "day.hpp"
#include "run/circuit.hpp"
#include "run/settle.hpp"
#include "run/stimuli.hpp"
#include "shelf/shelf.hpp"

namespace tideover::speed {

/// When the day's outage begins.
inline constexpr double mains_lost_s = 1800.0;

/// With the loads' bursts every minute, or with their mean.
inline Day tide_hut_day(const build::Build& build, bool has_bursts) {
  using build::Change;
  run::Circuit circuit = run::assemble(build, {});
  base::NoProgress nobody;
  const run::Settled settled =
      run::settle(circuit, build, quantity::Second::of_si(10.0 * 86400.0), nobody, has_bursts);
  if (settled.outcome.ended != hybrid::Ended::AtTime) throw std::runtime_error("does not settle");
  const auto mains = [&build](Change::Mains state) {
    Change change;
    change.what = Change::What::Mains;
    change.mains = state;
    return run::stimuli_of(build, change);
  };
  Day day{has_bursts ? "burst day" : "day", std::move(circuit.network), settled.y, {}};
  day.stretches = {{{}, mains_lost_s, false},
                   {mains(Change::Mains::Absent), 86400.0, true},
                   {{}, 1800.0, false},
                   {mains(Change::Mains::Present), 86400.0, false, 86400.0}};
  return day;
}

}  // namespace tideover::speed
