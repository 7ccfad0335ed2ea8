#include "part/capacitor/capacitor.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol Capacitor::symbol() const {
  SymbolPen pen(15.0, 10.0);
  pen.pin("plus", {0.0, 5.0}, {7.0, 5.0});
  pen.pin("minus", {15.0, 5.0}, {8.0, 5.0});
  pen.line({{7.0, 2.5}, {7.0, 7.5}});
  pen.line({{8.0, 2.5}, {8.0, 7.5}});
  if (make == CapacitorMake::Electrolytic || make == CapacitorMake::Polymer) pen.plus({5.0, 3.3});
  return std::move(pen).done();
}

}  // namespace tideover::part
