#include "cell/log_fields.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace tideover::cell {
namespace {

constexpr std::string_view blanks = " \t\r\v\f";

bool is_separator(char c, char separator) {
  return c == separator || (separator == ' ' && c == '\t');
}

/// Where the field that begins at `at` ends: at a separator outside quotes, or at the line's end.
std::size_t end_of_field(std::string_view line, std::size_t at, char separator) {
  bool quoted = false;
  const std::size_t text = line.find_first_not_of(" \t", at);
  const bool begins_quoted = text != std::string_view::npos && line[text] == '"';
  for (; at < line.size(); ++at) {
    if (line[at] == '"' && begins_quoted) quoted = !quoted;
    if (!quoted && is_separator(line[at], separator)) return at;
  }
  return line.size();
}

std::string unquoted(std::string_view field) {
  field = trimmed(field);
  if (field.size() < 2 || field.front() != '"' || field.back() != '"') return std::string(field);
  std::string text;
  for (std::size_t i = 1; i + 1 < field.size(); ++i) {
    if (field[i] == '"' && field[i + 1] == '"' && i + 2 < field.size()) ++i;
    text += field[i];
  }
  return std::string(trimmed(text));
}

/// Calls `deed(begin, end)` for every field.
template <class Deed>
void each_field(std::string_view line, char separator, const Deed& deed) {
  std::size_t at = 0;
  if (separator == ' ') line = trimmed(line);
  while (true) {
    if (separator == ' ') at = std::min(line.find_first_not_of(" \t", at), line.size());
    const std::size_t end = end_of_field(line, at, separator);
    deed(at, end);
    if (end >= line.size()) return;
    at = end + 1;
  }
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string_view next_line(std::string_view text, std::size_t& at) {
  const std::size_t end = std::min(text.find('\n', at), text.size());
  std::string_view line = text.substr(at, end - at);
  at = std::min(end + 1, text.size());
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

bool is_comment(std::string_view line) {
  line = trimmed(line);
  return line.empty() || line.front() == '#';
}

std::vector<std::string> split_fields(std::string_view line, char separator) {
  std::vector<std::string> fields;
  if (separator == ' ') line = trimmed(line);
  each_field(line, separator, [&](std::size_t begin, std::size_t end) {
    fields.push_back(unquoted(line.substr(begin, end - begin)));
  });
  return fields;
}

int column_of_field(std::string_view line, char separator, std::size_t index) {
  std::size_t count = 0;
  std::size_t found = 0;
  const std::size_t lead =
      separator == ' ' ? std::min(line.find_first_not_of(blanks), line.size()) : 0;
  each_field(line, separator, [&](std::size_t begin, std::size_t end) {
    if (count++ != index) return;
    const std::size_t text = line.substr(lead).find_first_not_of(" \t", begin);
    found = lead + (text < end ? text : begin);
  });
  return 1 + static_cast<int>(base::count_code_points(line.substr(0, found)));
}

void DecimalMark::look_at(const std::vector<std::string>& fields) {
  for (const std::string& field : fields) {
    const std::string_view text = trimmed(field);
    const std::size_t other = text.find_first_not_of("+-0123456789");
    if (other == std::string_view::npos || other == 0) continue;
    const bool is_alone =
        text.find_first_not_of("0123456789eE+-", other + 1) == std::string_view::npos;
    if (!is_alone) continue;
    if (text[other] == ',') ++commas_;
    if (text[other] == '.') ++points_;
  }
}

std::optional<std::string_view> plain_text(std::string_view bytes, std::string& kept) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) return std::nullopt;
  if (bytes.substr(0, 4096).find('\0') != std::string_view::npos) return std::nullopt;
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  const std::string_view beginning = bytes.substr(0, 65536);
  const bool is_old = beginning.find('\n') == std::string_view::npos &&
                      beginning.find('\r') != std::string_view::npos &&
                      bytes.find('\n') == std::string_view::npos;
  if (!is_old) return bytes;
  kept = bytes;
  std::ranges::replace(kept, '\r', '\n');
  return kept;
}

}  // namespace tideover::cell
