/// Just enough XML to tell whether what a writer wrote is well-formed, and what is in it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

struct XmlReading {
  std::string fault;  ///< empty when well-formed
  std::vector<std::string> elements;
  std::vector<std::pair<std::string, std::string>> attributes;

  [[nodiscard]] std::size_t count(std::string_view element) const;
  [[nodiscard]] std::vector<std::string> values(std::string_view attribute) const;
};

/// Elements, attributes in double quotes, character data with the five entities and numeric ones;
/// no prologue, comments or CDATA, which our writer never writes.
[[nodiscard]] XmlReading read_xml(std::string_view text);
