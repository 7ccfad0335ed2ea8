/// Something wrong with the wiring of a build that its sheet does not say: a lead that has come
/// off, a loose screw, a bridge of solder, a plug the wrong way round.
#pragma once

#include <compare>
#include <string>

#include "part/failure_mode.hpp"

namespace tideover::build {

/// `pack.plus`: one terminal of one part.
struct TerminalName {
  std::string part;
  std::string terminal;
  friend auto operator<=>(const TerminalName&, const TerminalName&) = default;
};

struct Defect {
  part::Damage::What what{};
  std::string lead = {};       ///< of Open and Resistive: this lead; empty: between a part and
  TerminalName terminal = {};  ///< this terminal of it
  TerminalName other = {};     ///< of Bridged and Exchanged
  quantity::Ohm resistance = {};
  /// Sound until the timeline says that what is latent arises (Change::What::Defects). An exchange
  /// is there from the start.
  bool arises_later = false;
};

}  // namespace tideover::build
