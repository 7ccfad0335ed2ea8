/// Lines and fields of a log's text: separators, quotes, comments.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tideover::cell {

/// How a file sets its fields apart.
struct Dialect {
  char separator = ',';  ///< comma, semicolon, tab, vertical bar, or a blank for runs of blanks
  char decimal = '.';    ///< mark of decimals: point or comma
};

/// Without blanks, tabs and carriage returns at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// The line at `at` without its end; `at` moves behind it. A carriage return before the end goes.
[[nodiscard]] std::string_view next_line(std::string_view text, std::size_t& at);

/// Nothing but blanks, or a comment behind `#`.
[[nodiscard]] bool is_comment(std::string_view line);

/// The fields of a line, trimmed, quotes taken off and doubled quotes made single. With a blank as
/// separator, runs of blanks and tabs count once.
[[nodiscard]] std::vector<std::string> split_fields(std::string_view line, char separator);

/// Column of field `index` in its line, in code points from 1, for a message.
[[nodiscard]] int column_of_field(std::string_view line, char separator, std::size_t index);

/// The mark of decimals in lines of data: a comma if fields have one between digits and none has a
/// point. With a comma as separator only quoted fields can have one.
class DecimalMark {
 public:
  void look_at(const std::vector<std::string>& fields);
  [[nodiscard]] char mark() const { return commas_ > 0 && points_ == 0 ? ',' : '.'; }

 private:
  int commas_ = 0;
  int points_ = 0;
};

/// The text without a byte-order mark; a text with lone carriage returns as line ends has them
/// replaced in `kept`, which then owns it. Empty for UTF-16 or a NUL among the first bytes.
[[nodiscard]] std::optional<std::string_view> plain_text(std::string_view bytes, std::string& kept);

}  // namespace tideover::cell
