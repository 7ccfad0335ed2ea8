// What a figure holds, however it is grouped.
#pragma once

#include <variant>
#include <vector>

#include "drawing/figure.hpp"

template <class Form>
void collect(const std::vector<tideover::drawing::Shape>& shapes, std::vector<Form>& found) {
  for (const tideover::drawing::Shape& shape : shapes) {
    if (const auto* form = std::get_if<Form>(&shape.form)) found.push_back(*form);
    if (const auto* group = std::get_if<tideover::drawing::Group>(&shape.form)) {
      collect(group->shapes, found);
    }
  }
}

// All shapes of one form, in the order in which they are drawn.
template <class Form>
std::vector<Form> all(const tideover::drawing::Figure& figure) {
  std::vector<Form> found;
  collect(figure.shapes, found);
  return found;
}
