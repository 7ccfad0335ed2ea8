#include "base/contract.hpp"

namespace tideover::base {

void fail_contract(std::string_view condition, std::string_view file, int line,
                   std::string_view detail) {
  std::string text = "inside error: ";
  text.append(detail).append(" (").append(condition).append(") at ").append(file);
  text.append(":").append(std::to_string(line));
  throw ContractFault(text);
}

}  // namespace tideover::base
