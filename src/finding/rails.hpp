/// What feeds what, read from the sheet: along leads, fuses, plugs, diodes and contacts.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "build/points.hpp"

namespace tideover::finding {

/// Leads, joins, fuses, plugs, terminal blocks, cut-outs and a protection board's minus line join
/// what they touch; diodes lead one way; of the contacts of a switch or relay one path at a time.
class Rails {
 public:
  explicit Rails(const build::Build& build);

  /// Nothing but wire, plugs and fuses between them.
  [[nodiscard]] bool are_one(const build::TerminalName& a, const build::TerminalName& b) const {
    return points_.point_of(a) == points_.point_of(b);
  }
  /// Current may come from `source` to `terminal`, in some position of switches and contacts.
  [[nodiscard]] bool feeds(const build::TerminalName& source,
                           const build::TerminalName& terminal) const;

 private:
  struct Gate {
    build::TerminalName from;
    build::TerminalName to;
    std::string contact;  ///< of one pole one is closed at a time: "changeover"; empty: a diode
  };

  void join_inside(const part::Part& part);
  void add_gates(const part::Part& part);

  build::Points points_;
  std::vector<Gate> gates_;
};

}  // namespace tideover::finding
