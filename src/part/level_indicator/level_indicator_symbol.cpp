#include "part/level_indicator/level_indicator.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol LevelIndicator::symbol() const { return boxed("level", {.left = {"plus", "minus"}}); }

}  // namespace tideover::part
