#include "part/pack/pack.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// One cell for each group, the long plate its plus.
Symbol Pack::symbol() const {
  constexpr double group_mm = 5.0;
  const double height_mm = group_mm * (series + 1);
  SymbolPen pen(15.0, height_mm);
  const double axis_mm = 10.0;
  pen.plus({8.0, 2.2});
  pen.pin("plus", {axis_mm, 0.0}, {axis_mm, 4.5});
  for (int number = series; number >= 1; --number) {
    const double top_mm = 2.5 + group_mm * (series - number);
    pen.line({{axis_mm - 3.0, top_mm + 2.0}, {axis_mm + 3.0, top_mm + 2.0}});
    pen.closed({{axis_mm - 1.5, top_mm + 2.8},
                {axis_mm + 1.5, top_mm + 2.8},
                {axis_mm + 1.5, top_mm + 3.3},
                {axis_mm - 1.5, top_mm + 3.3}},
               true);
    if (number == 1) break;
    const double tap_mm = top_mm + group_mm;
    pen.line({{axis_mm, top_mm + 3.3}, {axis_mm, tap_mm + 2.0}});
    pen.pin(terminal_below(number), {0.0, tap_mm}, {axis_mm, tap_mm});
  }
  pen.pin("minus", {axis_mm, height_mm}, {axis_mm, height_mm - 1.7 - 2.5});
  return std::move(pen).done();
}

}  // namespace tideover::part
