#include "base/contract.hpp"

namespace tideover::base {

namespace {

/// "src/drawing/plot.cpp": where the tree lay when it was built is nobody's business.
std::string_view inside_tree(std::string_view file) {
  for (const std::string_view folder : {"src/", "tests/", "apps/", "speed/"}) {
    const auto at = file.rfind(folder);
    if (at != std::string_view::npos) return file.substr(at);
  }
  return file.substr(file.rfind('/') + 1);
}

}  // namespace

void fail_contract(std::string_view condition, std::string_view file, int line,
                   std::string_view detail) {
  std::string text = "inside error: ";
  text.append(detail).append(" (").append(condition).append(") at ").append(inside_tree(file));
  text.append(":").append(std::to_string(line));
  throw ContractFault(text);
}

}  // namespace tideover::base
