#include "cell/log_text.hpp"

#include <algorithm>
#include <array>

namespace tideover::cell {
namespace {

constexpr std::array<char, 5> separators{'\t', ';', ',', '|', ' '};
constexpr int lines_looked_at = 500;
constexpr int data_lines_looked_at = 200;
constexpr std::size_t longest_heading_line_bytes = 20000;

bool fits(const Headings& headings, Kind kind) {
  return kind == Kind::Log ? headings.make_a_log() : headings.make_a_table();
}

int columns_known(const Headings& headings) {
  return static_cast<int>(std::ranges::count_if(
      headings.columns, [](const Column& column) { return column.role != Role::Ignored; }));
}

struct Found {
  char separator = ',';
  std::vector<Column> columns;
};

/// The separator with which a line tells most.
std::optional<Found> headings_of(std::string_view line, Kind kind) {
  std::optional<Found> best;
  int most = 0;
  if (line.size() > longest_heading_line_bytes) return best;
  for (const char separator : separators) {
    if (line.find(separator) == std::string_view::npos) continue;
    std::vector<Column> columns = headings_in(line, separator);
    const Headings chosen = choose_columns(columns);
    if (!fits(chosen, kind)) continue;
    const int known = columns_known(chosen);
    if (known <= most) continue;
    most = known;
    best = Found{separator, std::move(columns)};
  }
  return best;
}

void look_at_data(LogText& found, std::vector<Column> columns, std::string_view text) {
  std::size_t at = found.data_at;
  if (at < text.size()) {
    const std::string_view line = next_line(text, at);
    if (!is_comment(line) && take_units(columns, split_fields(line, found.dialect.separator))) {
      found.data_at = at;
      ++found.data_line;
    }
  }
  found.headings = choose_columns(std::move(columns));
  DecimalMark decimal;
  at = found.data_at;
  for (int count = 0; count < data_lines_looked_at && at < text.size(); ++count) {
    const std::string_view line = next_line(text, at);
    if (!is_comment(line)) decimal.look_at(split_fields(line, found.dialect.separator));
  }
  found.dialect.decimal = decimal.mark();
}

}  // namespace

std::vector<Column> headings_in(std::string_view line, char separator) {
  std::vector<std::string> fields = split_fields(line, separator);
  if (separator == ' ') fields = join_units(fields);
  return read_headings(fields);
}

std::optional<LogText> find_headings(std::string_view text, Kind kind) {
  LogText found;
  std::optional<LogText> in_comment;
  std::optional<Found> commented;
  std::size_t at = 0;
  for (int line_number = 1; line_number <= lines_looked_at && at < text.size(); ++line_number) {
    const std::string_view line = next_line(text, at);
    const bool is_remark = is_comment(line);
    std::string_view words = trimmed(line);
    while (words.starts_with('#')) words.remove_prefix(1);
    std::optional<Found> here = headings_of(words, kind);
    found.heading_line = line_number;
    found.data_at = at;
    found.data_line = line_number + 1;
    if (here) found.dialect.separator = here->separator;
    if (here && !is_remark) {
      look_at_data(found, std::move(here->columns), text);
      return found;
    }
    if (is_remark && !words.empty()) found.comments.emplace_back(trimmed(words));
    if (!is_remark) ++found.passed_over;
    if (here) {
      in_comment = found;
      commented = std::move(here);
    }
  }
  if (in_comment) look_at_data(*in_comment, std::move(commented->columns), text);
  return in_comment;
}

}  // namespace tideover::cell
