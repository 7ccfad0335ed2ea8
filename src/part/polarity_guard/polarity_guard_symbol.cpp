#include "part/polarity_guard/polarity_guard.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// What lies in the supply, or across it, is drawn inside its border.
Symbol PolarityGuard::symbol() const {
  SymbolPen pen(20.0, 20.0);
  pen.box({2.5, 1.25, 17.5, 17.5});
  if (style == GuardStyle::Crowbar) {
    pen.pin("in", {0.0, 5.0}, {10.0, 5.0});
    pen.pin("out", {20.0, 5.0}, {10.0, 5.0});
    pen.line({{10.0, 5.0}, {10.0, 7.5}});
    pen.closed({{8.0, 11.5}, {12.0, 11.5}, {10.0, 7.5}}, false);
    pen.line({{8.0, 7.5}, {12.0, 7.5}});
    pen.pin("minus", {10.0, 20.0}, {10.0, 7.5});
    pen.word({6.2, 14.5}, "guard");
  } else {
    pen.diode({10.0, 5.0});
    pen.pin("in", {0.0, 5.0}, {8.0, 5.0});
    pen.pin("out", {20.0, 5.0}, {12.0, 5.0});
    pen.pin("minus", {10.0, 20.0}, {10.0, 17.5});
    pen.word({10.0, 14.5}, "guard");
  }
  return std::move(pen).done();
}

}  // namespace tideover::part
