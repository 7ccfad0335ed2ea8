// Any bytes as a build sheet: a build or problems, all with a place that can be shown.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace {

void require(bool condition) {
  if (!condition) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tideover;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto read = build::read_sheet(text, "fuzz.toml", shelf::built_in_shelf());
  if (!read) {
    require(base::show(read.problems()).size() > 10);
    return 0;
  }
  const build::Build twin = read.value().copy();
  require(twin.parts.size() == read.value().parts.size());
  for (const auto& part : twin.parts) require(part->contradictions().empty());
  return 0;
}
