#include "part/converter/board.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol ConverterBoard::symbol() const {
  return boxed(description().name,
               {.left = {"in_plus", "in_minus"}, .right = {"out_plus", "out_minus"}});
}

}  // namespace tideover::part
