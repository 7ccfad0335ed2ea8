// Any bytes as a quantity: what is read is finite, in order, and survives being written back.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"

namespace {

void require(bool condition) {
  if (!condition) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tideover::quantity;
  if (size == 0) return 0;
  const auto table = unit_table();
  const Measure measure = table[data[0] % table.size()].measure;
  const std::string_view text(reinterpret_cast<const char*>(data + 1), size - 1);
  const auto read = read_amount(text, measure, Form::Value);
  if (!read) {
    require(!tideover::base::show(read.problems()).empty());
    return 0;
  }
  const Amount& amount = read.value();
  require(std::isfinite(amount.low_si) && std::isfinite(amount.high_si));
  require(amount.low_si <= amount.nominal_si && amount.nominal_si <= amount.high_si);
  require(!show_amount(amount, measure).empty());
  require(read_amount(exact_text(amount, measure), measure, Form::Value).has_value());
  return 0;
}
