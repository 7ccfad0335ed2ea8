#include "part/box/box.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// No terminals: the border of what stands inside, as IEC 60617 draws an enclosure.
Symbol Box::symbol() const {
  SymbolPen pen(25.0, 15.0);
  pen.dashed({{0.5, 0.5}, {24.5, 0.5}, {24.5, 14.5}, {0.5, 14.5}, {0.5, 0.5}});
  pen.word({12.5, 7.5}, "box");
  return std::move(pen).done();
}

}  // namespace tideover::part
