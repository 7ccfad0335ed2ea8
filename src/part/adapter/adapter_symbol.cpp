#include "part/adapter/adapter.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol Adapter::symbol() const {
  return boxed("adapter", {.right = {"plus", "minus"}, .below = {"earth"}});
}

}  // namespace tideover::part
