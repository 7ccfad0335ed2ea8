#include "part/load/load.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol Load::symbol() const { return boxed("load", {.left = {"plus", "minus", "signal"}}); }

}  // namespace tideover::part
