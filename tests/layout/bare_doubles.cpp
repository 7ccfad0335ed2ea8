#include "layout/bare_doubles.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <iterator>
#include <string>

namespace tideover::test {
namespace {

namespace fs = std::filesystem;

// Floors 5 and up. Below, mathematics and the equations of parts work in plain doubles.
constexpr std::array<std::string_view, 13> typed_folders{
    "shelf", "build", "run",    "cell",    "box", "finding", "question",
    "size",  "bench", "papers", "service", "cli", "server"};

// Last words of a name that say the unit, or that it is a share. `c` is degrees Celsius, or
// coulombs of a counter. `si` is the coherent unit of whatever the channel beside it measures.
constexpr std::array<std::string_view, 31> units{
    "ratio",   "soc", "factor", "scale", "shares",  "share", "si",     "s",  "h",  "v", "a", "ohm",
    "s_per_m", "w",   "j",      "wh",    "ah",      "as",    "c",      "hz", "kg", "k", "m", "mm",
    "mm2",     "m2",  "m3",     "f",     "celsius", "bytes", "percent"};

// What has no unit of its own.
constexpr std::array<std::string_view, 22> pure_numbers{
    // Shares: of a rating, of a step's error, between a value and its limit.
    "tight_rating", "relative_tolerance", "margin",
    // Weights of runs among each other.
    "effort",
    // From SI to the unit that a channel is shown in; a value in that unit; how many times a
    // channel a figure is.
    "factor", "offset", "floor", "scale",
    // All unknowns of a system, each in its own SI unit.
    "y",
    // Of a text of JSON, which knows no units.
    "number", "read_number",
    // Of a fit: parameters of mixed units at one point, what is known of them, residuals; and the
    // branch a cell's rest voltage is on, -1 to 1.
    "at", "start", "expected", "deviation", "weight", "residuals", "odd_capacity", "odd_anchor",
    "branch",
    // A load's, in watts or amperes as it says.
    "amount",
    // A column in the SI unit of its role.
    "of"};

// Comments and quoted texts become blanks, line ends stay.
std::string code_of(std::string_view text) {
  std::string code(text);
  enum class In { Code, Line, Block, Quote, Letter } in = In::Code;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    const char here = text[i];
    const In before = in;
    if (in == In::Code && here == '/' && next == '/') in = In::Line;
    if (in == In::Code && here == '/' && next == '*') in = In::Block;
    if (in == In::Code && here == '"') in = In::Quote;
    if (in == In::Code && here == '\'' &&
        (i == 0 || std::isalnum(static_cast<unsigned char>(text[i - 1])) == 0))
      in = In::Letter;
    if (here != '\n' && in != In::Code) code[i] = ' ';
    if (before == In::Line && here == '\n') in = In::Code;
    if (before == In::Block && here == '/' && text[i - 1] == '*') in = In::Code;
    const bool escaped = i > 0 && text[i - 1] == '\\';
    if (before == In::Quote && here == '"' && !escaped) in = In::Code;
    if (before == In::Letter && here == '\'' && !escaped) in = In::Code;
  }
  return code;
}

bool is_letter(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

// The word at `at`, empty if none begins there.
std::string_view word_at(std::string_view code, std::size_t at) {
  std::size_t end = at;
  while (end < code.size() && is_letter(code[end])) ++end;
  return code.substr(at, end - at);
}

bool is_bare(std::string_view type) { return type == "double" || type == "float"; }

struct Declared {
  std::string_view name;  // empty where none follows
  int closed = 0;         // angle brackets closed before it
};

// The name that the type ending at `at` is the type of: past brackets, references and `const`.
Declared declared_after(std::string_view code, std::size_t at) {
  Declared declared;
  while (at < code.size()) {
    const char c = code[at];
    declared.name = word_at(code, at);
    if (declared.name == "const" || declared.name == "constexpr") {
      at += declared.name.size();
    } else if (std::isspace(static_cast<unsigned char>(c)) != 0 || c == '>' || c == '&' ||
               c == '*') {
      if (c == '>') ++declared.closed;
      ++at;
    } else {
      break;
    }
  }
  return declared;
}

// Angle brackets that are open at `at`, counted from the beginning of the statement.
int open_brackets(std::string_view code, std::size_t at) {
  const std::size_t last = code.substr(0, at).find_last_of(";{}");
  const std::string_view part =
      code.substr(0, at).substr(last == std::string_view::npos ? 0 : last);
  return static_cast<int>(std::ranges::count(part, '<') - std::ranges::count(part, '>'));
}

bool says_its_unit(std::string_view name) {
  while (name.ends_with('_')) name.remove_suffix(1);
  if (name.ends_with("_of")) name.remove_suffix(3);
  if (std::ranges::find(pure_numbers, name) != pure_numbers.end()) return true;
  return std::ranges::any_of(units, [name](std::string_view unit) {
    return name == unit || (name.ends_with(unit) && name.size() > unit.size() &&
                            name[name.size() - unit.size() - 1] == '_');
  });
}

bool is_typed(const std::string& file) {
  return file.ends_with(".hpp") &&
         std::ranges::find(typed_folders, std::string_view(file).substr(0, file.find('/'))) !=
             typed_folders.end();
}

}  // namespace

std::vector<Breach> bare_doubles_in(std::string_view text, const fs::path& file) {
  std::vector<Breach> found;
  const std::string code = code_of(text);
  int line = 1;
  int depth = 0;
  int private_depth = 0;  // 0: what is read is public
  for (std::size_t at = 0; at < code.size();) {
    if (code[at] == '\n') ++line;
    if (code[at] == '{') ++depth;
    if (code[at] == '}' && --depth < private_depth) private_depth = 0;
    const std::string_view word = word_at(code, at);
    if (word.empty()) {
      ++at;
      continue;
    }
    // What is private is no interface.
    if (word == "private" && private_depth == 0) private_depth = depth;
    const int opened = is_bare(word) ? open_brackets(code, at) : 0;
    at += word.size();
    if (!is_bare(word) || private_depth > 0) continue;
    // A cast declares nothing.
    if (std::string_view(code).substr(0, at - word.size()).ends_with("static_cast<")) continue;
    const auto [name, closed] = declared_after(code, at);
    // One of the types that another is made of, as in a variant.
    if (name.empty() && opened > closed) continue;
    if (says_its_unit(name)) continue;
    found.push_back({file, line,
                     name.empty() ? "a double without a name: say what it is and in which unit"
                                  : "double `" + std::string(name) +
                                        "`: a strong type of quantity/, or a name that ends in "
                                        "its unit"});
  }
  return found;
}

std::vector<Breach> find_bare_doubles(const fs::path& root) {
  std::vector<Breach> found;
  for (const std::string& file : inspect_house(root).read) {
    if (!is_typed(file)) continue;
    std::ifstream stream(root / file);
    const std::string text{std::istreambuf_iterator<char>(stream), {}};
    for (Breach& breach : bare_doubles_in(text, file)) found.push_back(std::move(breach));
  }
  return found;
}

}  // namespace tideover::test
