#include "part/symbol.hpp"
#include "part/thermal_cut_out/thermal_cut_out.hpp"

namespace tideover::part {

/// A break contact that heat works.
Symbol ThermalCutOut::symbol() const {
  SymbolPen pen(15.0, 10.0);
  pen.pin("a", {0.0, 7.5}, {4.0, 7.5});
  pen.line({{4.0, 7.5}, {11.6, 5.6}});
  pen.line({{11.0, 5.0}, {11.0, 7.5}});
  pen.pin("b", {15.0, 7.5}, {11.0, 7.5});
  pen.dashed({{7.5, 6.6}, {7.5, 3.6}});
  pen.word({7.5, 2.0}, "\u03b8");
  return std::move(pen).done();
}

}  // namespace tideover::part
