/// Contracts: what must hold if our own code is right. A broken one is our fault, never the user's.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace tideover::base {

/// Thrown when an invariant of the program is broken; caught only at the outermost door.
class ContractFault : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

[[noreturn]] void fail_contract(std::string_view condition, std::string_view file, int line,
                                std::string_view detail);

}  // namespace tideover::base

/// On in every build type. Must not be reachable by user input: a reader that lets it happen lacks
/// a check.
#define TIDEOVER_EXPECT(condition, detail)                                                     \
  do {                                                                                         \
    if (!(condition)) ::tideover::base::fail_contract(#condition, __FILE__, __LINE__, detail); \
  } while (false)
