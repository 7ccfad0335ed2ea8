/// One field of a table in CSV. Source: RFC 4180.
#pragma once

#include <string>

namespace tideover::papers {

/// In quotes where it must be.
[[nodiscard]] std::string csv_field(const std::string& words);

}  // namespace tideover::papers
