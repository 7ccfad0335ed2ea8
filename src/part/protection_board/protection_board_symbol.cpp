#include "part/protection_board/protection_board.hpp"
#include "part/symbol.hpp"

namespace tideover::part {

/// The pack on the left, from its plus down; the supply's minus on the right.
Symbol ProtectionBoard::symbol() const {
  Sides sides{.left = {"b_plus"}, .right = {"p_minus"}};
  for (int k = series - 1; k >= 1; --k) sides.left.push_back("tap" + std::to_string(k));
  sides.left.emplace_back("b_minus");
  return boxed("board", sides);
}

}  // namespace tideover::part
