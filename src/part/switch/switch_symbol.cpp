#include "part/switch/switch.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// One way is drawn open, several with the blade on the first; the blades of several poles move
/// together.
Symbol Switch::symbol() const {
  constexpr double way_mm = 5.0;
  SymbolPen pen(20.0, way_mm * (poles * ways + 1));
  std::vector<double> blades_mm;
  for (int pole = 0; pole < poles; ++pole) {
    const double first_mm = way_mm * (pole * ways + 1);
    const double common_mm = first_mm + 0.5 * way_mm * (ways - 1);
    pen.pin(terminal("common", pole), {0.0, common_mm}, {6.0, common_mm});
    for (int way = 1; way <= ways; ++way) {
      const double y_mm = first_mm + way_mm * (way - 1);
      pen.pin(terminal("way" + std::to_string(way), pole), {20.0, y_mm}, {14.0, y_mm});
      pen.circle({13.5, y_mm}, 0.5);
    }
    const double tip_mm = ways == 1 ? first_mm - 3.5 : first_mm;
    pen.line({{6.0, common_mm}, {13.0, tip_mm}});
    blades_mm.push_back(0.5 * (common_mm + tip_mm));
  }
  if (poles > 1) pen.dashed({{9.5, blades_mm.front()}, {9.5, blades_mm.back()}});
  return std::move(pen).done();
}

}  // namespace tideover::part
