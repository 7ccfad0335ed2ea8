#include "part/led/led.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// With the resistor that belongs to it.
Symbol Led::symbol() const {
  SymbolPen pen(25.0, 10.0);
  pen.pin("plus", {0.0, 5.0}, {3.0, 5.0});
  pen.box({3.0, 3.75, 10.5, 6.25});
  pen.line({{10.5, 5.0}, {15.0, 5.0}});
  pen.diode({17.0, 5.0});
  pen.pin("minus", {25.0, 5.0}, {19.0, 5.0});
  for (const double x_mm : {17.0, 19.0}) {
    pen.line({{x_mm, 3.0}, {x_mm + 1.8, 1.2}});
    pen.closed({{x_mm + 2.2, 0.8}, {x_mm + 1.1, 1.3}, {x_mm + 1.7, 1.9}}, true);
  }
  return std::move(pen).done();
}

}  // namespace tideover::part
