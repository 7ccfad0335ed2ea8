#include "part/symbol.hpp"
#include "part/terminal_block/terminal_block.hpp"

namespace tideover::part {

Symbol TerminalBlock::symbol() const {
  constexpr double clamp_mm = 5.0;
  constexpr double radius_mm = 0.9;
  SymbolPen pen(10.0, clamp_mm * ways);
  for (int way = 1; way <= ways; ++way) {
    const double y_mm = clamp_mm * (way - 0.5);
    pen.circle({7.5, y_mm}, radius_mm);
    pen.pin("w" + std::to_string(way), {0.0, y_mm}, {7.5 - radius_mm, y_mm});
    if (way > 1) pen.line({{7.5, y_mm - clamp_mm + radius_mm}, {7.5, y_mm - radius_mm}});
  }
  return std::move(pen).done();
}

}  // namespace tideover::part
