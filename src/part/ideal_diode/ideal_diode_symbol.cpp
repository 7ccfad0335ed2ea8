#include "part/ideal_diode/ideal_diode.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// A diode with its controller: one unit, so within one border.
Symbol IdealDiode::symbol() const {
  SymbolPen pen(20.0, 15.0);
  pen.box({2.5, 1.25, 17.5, 12.5});
  pen.diode({10.0, 5.0});
  pen.pin("anode", {0.0, 5.0}, {8.0, 5.0});
  pen.pin("cathode", {20.0, 5.0}, {12.0, 5.0});
  pen.pin("minus", {10.0, 15.0}, {10.0, 12.5});
  pen.word({10.0, 10.0}, "ideal");
  return std::move(pen).done();
}

}  // namespace tideover::part
