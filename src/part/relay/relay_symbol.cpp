#include "part/relay/relay.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// As it stands with a dead coil: each blade on its rest contact.
Symbol Relay::symbol() const {
  constexpr double pole_mm = 10.0;
  SymbolPen pen(15.0 + pole_mm * poles, 20.0);
  pen.box({1.25, 7.5, 8.75, 12.5});
  pen.pin("coil_plus", {5.0, 0.0}, {5.0, 7.5});
  pen.pin("coil_minus", {5.0, 20.0}, {5.0, 12.5});
  pen.plus({3.3, 5.5});
  for (int pole = 0; pole < poles; ++pole) {
    const double axis_mm = 17.5 + pole_mm * pole;
    const std::string number = pole == 0 ? "" : std::to_string(pole + 1);
    pen.pin("common" + number, {axis_mm, 20.0}, {axis_mm, 13.0});
    pen.line({{axis_mm, 13.0}, {axis_mm - 2.9, 6.5}});
    pen.pin("rest" + number, {axis_mm - 2.5, 0.0}, {axis_mm - 2.5, 7.4});
    pen.pin("work" + number, {axis_mm + 2.5, 0.0}, {axis_mm + 2.5, 7.4});
  }
  // The blades move together, drawn by the coil: the link ends on the middle of the last blade.
  pen.dashed({{8.75, 10.0}, {16.1 + pole_mm * (poles - 1), 10.0}});
  return std::move(pen).done();
}

}  // namespace tideover::part
