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

/// One point for what a join holds, for all earths, and for what a part joins inside.
[[nodiscard]] Points points_of(const Build& build);

}  // namespace tideover::build
