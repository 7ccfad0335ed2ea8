/// What a rail may be asked for at once, and what feeds it at most and at least, from the sheet.
#pragma once

#include <string>
#include <vector>

#include "finding/pack_company.hpp"
#include "finding/rails.hpp"
#include "part/adapter/adapter.hpp"
#include "part/converter/board.hpp"
#include "part/load/load.hpp"

namespace tideover::finding {

/// The greatest power of a load, at the upper end of its tolerance. Zero where it draws a stated
/// current or resistance.
[[nodiscard]] quantity::Watt peak_power(const part::Load& load);
/// The greatest current of a load at that voltage.
[[nodiscard]] quantity::Ampere peak_current(const part::Load& load, quantity::Volt at);

/// Input current of a board on while it gives `out` at its set voltage; losses as the sheet says.
[[nodiscard]] quantity::Ampere input_current(const part::ConverterBoard& board, quantity::Volt in,
                                             quantity::Ampere out);

/// The greatest current that loads, fans, coils and boards take together out of the rail that
/// starts at `source` and stands at `at`: loads at their peak, boards with all behind them at
/// theirs, chargers left out. Lamps and indicators, some milliamperes, are left out too.
[[nodiscard]] quantity::Ampere peak_demand(const build::Build& build, const Rails& rails,
                                           const build::TerminalName& source, quantity::Volt at);
/// The greatest current that a board may be asked for at its output.
[[nodiscard]] quantity::Ampere peak_output(const build::Build& build, const Rails& rails,
                                           const part::ConverterBoard& board);

/// What may feed a terminal, with the voltage it brings; tolerances in the bad direction, drops of
/// diodes and leads left out.
struct Source {
  std::string part;
  quantity::Volt highest;   ///< at no load; of a pack: as full as it is charged
  quantity::Volt lowest;    ///< at full load; of a pack: as its board cuts it off
  quantity::Volt at_rest;   ///< as low as it may be without load; of a pack: as `lowest`
  std::string why_highest;  ///< "mains24 at no load"
  std::string why_lowest;   ///< "mains24 at its full load"
};
[[nodiscard]] std::vector<Source> sources_of(const build::Build& build, const Rails& rails,
                                             const build::TerminalName& terminal);

/// What an adapter brings at its full load at least: by its measured curve, else by its source
/// resistance, of which no more than a third of its voltage is believed.
[[nodiscard]] quantity::Volt full_load_voltage(const part::Adapter& adapter);

/// Terminal voltage at which a pack is cut off by its board, or empty by its cells where it has
/// none; at the upper or lower end of the tolerance.
struct CutOff {
  quantity::Volt lowest;
  quantity::Volt highest;
  std::string by;  ///< the board; the pack itself
};
[[nodiscard]] CutOff cut_off_of(const PackCompany& company);

}  // namespace tideover::finding
