// Any bytes as TOML: a tree or problems, all places inside the text.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/toml.hpp"

namespace {

using tideover::base::TomlNode;

void require(bool condition) {
  if (!condition) std::abort();
}

void walk(const TomlNode& node, int depth) {
  require(depth < 300);
  require(node.place_inside(1, 1).line == node.mark.line);
  for (const auto& entry : node.entries) {
    require(entry.key_place().line >= 1);
    walk(entry.value, depth + 1);
  }
  for (const auto& item : node.items) walk(item, depth + 1);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto reading = tideover::base::read_toml(text, "fuzz.toml");
  walk(reading.root, 0);
  require(show(reading.problems).empty() == reading.is_whole());
  return 0;
}
