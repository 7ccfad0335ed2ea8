#include "part/connector/connector.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// A filled bar is the plug's pin, the half circle its socket.
Symbol Connector::symbol() const {
  SymbolPen pen(15.0, 5.0 * pairs);
  for (int pair = 0; pair < pairs; ++pair) {
    const double y_mm = 5.0 * pair + 2.5;
    const std::string number = std::to_string(pair + 1);
    pen.pin("in" + number, {0.0, y_mm}, {5.0, y_mm});
    pen.closed({{5.0, y_mm - 0.5}, {8.5, y_mm - 0.5}, {8.5, y_mm + 0.5}, {5.0, y_mm + 0.5}}, true);
    pen.arc({9.0, y_mm}, 1.75, -90.0, 180.0);
    pen.pin("out" + number, {15.0, y_mm}, {10.75, y_mm});
  }
  return std::move(pen).done();
}

}  // namespace tideover::part
