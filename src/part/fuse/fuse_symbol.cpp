#include "part/fuse/fuse.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

Symbol Fuse::symbol() const {
  SymbolPen pen(15.0, 5.0);
  pen.box({3.75, 1.25, 11.25, 3.75});
  pen.pin("a", {0.0, 2.5}, {7.5, 2.5});
  pen.pin("b", {15.0, 2.5}, {7.5, 2.5});
  return std::move(pen).done();
}

}  // namespace tideover::part
