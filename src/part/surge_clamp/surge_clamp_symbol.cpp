#include "part/surge_clamp/surge_clamp.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// A breakdown diode, its cathode on the rail; one that clamps either polarity is two of them.
Symbol SurgeClamp::symbol() const {
  const bool is_both = ways == ClampWays::Both;
  SymbolPen pen(20.0, 10.0);
  const double bar_mm = is_both ? 10.0 : 8.0;
  pen.diode({bar_mm + 2.0, 5.0}, true);
  pen.line({{bar_mm, 3.0}, {bar_mm - 0.9, 3.0}});
  pen.pin("plus", {0.0, 5.0}, {is_both ? 6.0 : bar_mm, 5.0});
  pen.pin("minus", {20.0, 5.0}, {bar_mm + 4.0, 5.0});
  if (is_both) {
    pen.diode({bar_mm - 2.0, 5.0});
    pen.line({{bar_mm, 7.0}, {bar_mm + 0.9, 7.0}});
  }
  return std::move(pen).done();
}

}  // namespace tideover::part
