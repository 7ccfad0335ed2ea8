/// Shapes put elsewhere on the page.
#pragma once

#include "drawing/figure.hpp"

namespace tideover::drawing {

/// The same shape, further to the right and further down by `by`.
[[nodiscard]] Shape moved(const Shape& shape, Point by);

}  // namespace tideover::drawing
