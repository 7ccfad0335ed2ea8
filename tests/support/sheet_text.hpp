// A sheet put together from single lines, of which tests change some.
#pragma once

#include <map>
#include <string>

#include "build/build.hpp"

namespace tideover::test {

// "charger.voltage" -> "'12.9 V'": a part's line; "needs", "leads.NAME" and "joins.NAME" stand for
// themselves. What is empty is left out, and with its last line a part.
using Lines = std::map<std::string, std::string>;

[[nodiscard]] std::string sheet_text(const Lines& lines);
// Adds a lead of 0.75 mm2.
void add_lead(Lines& lines, const std::string& name, const std::string& from, const std::string& to,
              const std::string& length);
// The build of a text; fails the test with its problems where it has any.
[[nodiscard]] build::Build read_or_fail(const std::string& text, const std::string& file_name);

}  // namespace tideover::test
