#include "part/diode/diode.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol Diode::symbol() const {
  SymbolPen pen(15.0, 10.0);
  pen.pin("anode", {0.0, 5.0}, {5.5, 5.0});
  pen.pin("cathode", {15.0, 5.0}, {9.5, 5.0});
  pen.diode({7.5, 5.0});
  if (material == Material::Schottky) {
    pen.line({{9.5, 3.0}, {10.3, 3.0}, {10.3, 3.6}});
    pen.line({{9.5, 7.0}, {8.7, 7.0}, {8.7, 6.4}});
  }
  return std::move(pen).done();
}

}  // namespace tideover::part
