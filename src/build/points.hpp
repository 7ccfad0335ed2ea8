/// Which terminals are one electrical point.
#pragma once

#include <map>

#include "build/build.hpp"

namespace tideover::build {

/// Terminals that have been merged share one point, named by the first terminal of the merges.
class Points {
 public:
  [[nodiscard]] const TerminalName& point_of(const TerminalName& terminal) const {
    const TerminalName* at = &terminal;
    for (auto above = above_.find(*at); above != above_.end(); above = above_.find(*at)) {
      at = &above->second;
    }
    return *at;
  }
  /// The point of `b` becomes that of `a`.
  void merge(const TerminalName& a, const TerminalName& b) {
    const TerminalName top = point_of(a);
    const TerminalName other = point_of(b);
    if (other != top) above_[other] = top;
  }

 private:
  std::map<TerminalName, TerminalName> above_;  ///< no terminal stands above itself
};

/// Where all voltages count from: the minus of the first adapter, or of the first part that has
/// one.
[[nodiscard]] TerminalName common_of(const Build& build);

/// What a part's own terminal meets in a build with defects: itself, the other one if the two are
/// exchanged, or a point of its own behind an open or poor contact.
[[nodiscard]] TerminalName behind(const Build& build, const TerminalName& terminal);

/// One point for what a join holds, for all earths, and for what a part joins inside. Leads end at
/// a terminal's own name, the part stands `behind` it.
[[nodiscard]] Points points_of(const Build& build);

}  // namespace tideover::build
