#include "base/contract.hpp"

#include <string>

#include <doctest/doctest.h>

using tideover::base::ContractFault;
using tideover::base::fail_contract;

TEST_CASE("an inside error names its place in the tree, not where the tree lay") {
  std::string said;
  try {
    fail_contract("a < b", "/home/somebody/src/tideover/src/drawing/plot.cpp", 61, "runs forward");
  } catch (const ContractFault& fault) {
    said = fault.what();
  }
  CHECK(said == "inside error: runs forward (a < b) at src/drawing/plot.cpp:61");
}
