#include "part/fan/fan.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// A motor for direct current: M over a solid and a broken line.
Symbol Fan::symbol() const {
  SymbolPen pen(15.0, 10.0);
  pen.pin("plus", {0.0, 5.0}, {3.25, 5.0});
  pen.pin("minus", {15.0, 5.0}, {11.75, 5.0});
  pen.circle({7.5, 5.0}, 4.25);
  pen.word({7.5, 4.5}, "M", 3.5);
  pen.line({{6.2, 6.7}, {8.8, 6.7}});
  for (const double x_mm : {6.2, 7.2, 8.2}) pen.line({{x_mm, 7.4}, {x_mm + 0.6, 7.4}});
  pen.plus({1.6, 3.5});
  return std::move(pen).done();
}

}  // namespace tideover::part
