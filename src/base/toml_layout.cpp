#include "base/toml_layout.hpp"

#include <map>
#include <stdexcept>

#include "base/text.hpp"
#include "base/toml.hpp"

namespace tideover::base {

namespace {

/// The text is not what was promised.
struct Unsound : std::runtime_error {
  using std::runtime_error::runtime_error;
};

bool is_bare(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-';
}

/// A text without its quotes and escapes, as the reader of TOML has it.
std::string unquoted(std::string_view quoted) {
  const TomlReading reading = read_toml("x = " + std::string(quoted), "");
  const TomlNode* const node = reading.root.find("x");
  if (!reading.is_whole() || node == nullptr) throw Unsound("text");
  return node->text;
}

/// Reads pieces of TOML from a place on, and moves on behind them.
class Scanner {
 public:
  Scanner(std::string_view text, std::size_t at) : text_(text), at_(at) {}

  [[nodiscard]] std::size_t at() const { return at_; }
  [[nodiscard]] bool is_at_end() const { return at_ >= text_.size(); }
  [[nodiscard]] char next() const { return is_at_end() ? '\0' : text_[at_]; }

  void skip_blanks() {
    while (next() == ' ' || next() == '\t') ++at_;
  }

  void skip_line_end() {
    if (next() == '\r') ++at_;
    if (next() == '\n') ++at_;
  }

  void skip_comment() {
    if (next() != '#') return;
    while (!is_at_end() && next() != '\n' && next() != '\r') ++at_;
  }

  void expect(char c) {
    if (next() != c || is_at_end()) throw Unsound("a character is missing");
    ++at_;
  }

  std::vector<TomlWord> key() {
    std::vector<TomlWord> words;
    while (true) {
      skip_blanks();
      words.push_back(word());
      skip_blanks();
      if (next() != '.') return words;
      ++at_;
    }
  }

  TomlLayoutValue value(int depth = 0) {
    if (depth > deepest_toml) throw Unsound("too deep");
    if (next() == '"' || next() == '\'') {
      TomlLayoutValue text{.kind = TomlLayoutValue::Kind::Text, .span = {at_, at_}};
      skip_text();
      text.span.end = at_;
      return text;
    }
    if (next() == '[') return list(depth);
    if (next() == '{') return table(depth);
    return bare();
  }

 private:
  TomlWord word() {
    const std::size_t begin = at_;
    if (next() == '"' || next() == '\'') {
      skip_text();
      return {unquoted(text_.substr(begin, at_ - begin)), {begin, at_}};
    }
    while (is_bare(next())) ++at_;
    if (at_ == begin) throw Unsound("no key");
    return {std::string(text_.substr(begin, at_ - begin)), {begin, at_}};
  }

  void skip_text() {
    const char quote = next();
    const std::string triple(3, quote);
    if (text_.compare(at_, 3, triple) == 0) return skip_long_text(triple);
    for (++at_; next() != quote; ++at_) {
      if (is_at_end() || next() == '\n') throw Unsound("open quote");
      if (next() == '\\' && quote == '"') ++at_;
    }
    ++at_;
  }

  void skip_long_text(const std::string& triple) {
    at_ += 3;
    while (text_.compare(at_, 3, triple) != 0) {
      if (is_at_end()) throw Unsound("open quote");
      if (next() == '\\' && triple[0] == '"') ++at_;
      ++at_;
    }
    at_ += 3;
    // Up to two more quotes belong to the text itself.
    for (int k = 0; k < 2 && next() == triple[0]; ++k) ++at_;
  }

  TomlLayoutValue bare() {
    const std::size_t begin = at_;
    while (!is_at_end() && std::string_view(",]}#\n\r").find(next()) == std::string_view::npos) {
      ++at_;
    }
    std::size_t end = at_;
    while (end > begin && (text_[end - 1] == ' ' || text_[end - 1] == '\t')) --end;
    if (end == begin) throw Unsound("no value");
    at_ = end;
    return {.kind = TomlLayoutValue::Kind::Bare, .span = {begin, end}};
  }

  /// Blanks, line ends and comments inside a list.
  void skip_room() {
    while (true) {
      skip_blanks();
      skip_comment();
      if (next() != '\n' && next() != '\r') return;
      ++at_;
    }
  }

  TomlLayoutValue list(int depth) {
    TomlLayoutValue list{.kind = TomlLayoutValue::Kind::List, .span = {at_, at_}};
    expect('[');
    skip_room();
    while (next() != ']') {
      list.items.push_back(value(depth + 1));
      skip_room();
      if (next() != ',') break;
      ++at_;
      skip_room();
    }
    expect(']');
    list.span.end = at_;
    return list;
  }

  TomlLayoutValue table(int depth) {
    TomlLayoutValue table{.kind = TomlLayoutValue::Kind::Table, .span = {at_, at_}};
    expect('{');
    skip_blanks();
    while (next() != '}') {
      std::vector<TomlWord> words = key();
      expect('=');
      skip_blanks();
      table.entries.push_back({std::move(words), value(depth + 1)});
      skip_blanks();
      if (next() != ',') break;
      ++at_;
      skip_blanks();
    }
    expect('}');
    table.span.end = at_;
    return table;
  }

  std::string_view text_;
  std::size_t at_;
};

/// Goes through the lines and keeps which table they are in.
class Layout {
 public:
  explicit Layout(std::string_view text) : text_(text), scanner_(text, begin_of(text)) {}

  std::vector<TomlLine> run() {
    while (!scanner_.is_at_end()) {
      const std::size_t begin = scanner_.at();
      scanner_.skip_blanks();
      const char first = scanner_.next();
      const bool holds_something =
          !scanner_.is_at_end() && first != '#' && first != '\n' && first != '\r';
      if (holds_something) lines_.push_back(first == '[' ? header(begin) : entry(begin));
      end_line();
      if (holds_something) lines_.back().span.end = scanner_.at();
    }
    return std::move(lines_);
  }

 private:
  static std::size_t begin_of(std::string_view text) {
    return text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  }

  void end_line() {
    scanner_.skip_blanks();
    scanner_.skip_comment();
    const std::size_t before = scanner_.at();
    scanner_.skip_line_end();
    if (!scanner_.is_at_end() && scanner_.at() == before) throw Unsound("more on the line");
  }

  TomlLine header(std::size_t begin) {
    TomlLine line{.kind = TomlLine::Kind::Header, .span = {begin, begin}};
    scanner_.expect('[');
    if (scanner_.next() == '[') {
      line.kind = TomlLine::Kind::Item;
      scanner_.expect('[');
    }
    line.key = scanner_.key();
    scanner_.expect(']');
    if (line.kind == TomlLine::Kind::Item) scanner_.expect(']');
    line.path = path_of(line);
    table_ = line.path;
    return line;
  }

  /// A header's words with the numbers of the list items that it goes through.
  std::vector<std::string> path_of(const TomlLine& line) {
    std::vector<std::string> path;
    for (const TomlWord& word : line.key) {
      path.push_back(word.name);
      const bool is_last = &word == &line.key.back();
      if (is_last && line.kind == TomlLine::Kind::Item) ++items_[path];
      const auto items = items_.find(path);
      if (items != items_.end()) path.push_back(std::to_string(items->second));
    }
    return path;
  }

  TomlLine entry(std::size_t begin) {
    TomlLine line{.kind = TomlLine::Kind::Entry, .span = {begin, begin}};
    line.key = scanner_.key();
    scanner_.expect('=');
    scanner_.skip_blanks();
    line.value = scanner_.value();
    line.header = table_.size();
    line.path = table_;
    for (const TomlWord& word : line.key) line.path.push_back(word.name);
    return line;
  }

  std::string_view text_;
  Scanner scanner_;
  std::vector<TomlLine> lines_;
  std::vector<std::string> table_;
  std::map<std::vector<std::string>, int> items_;
};

template <class Read>
auto whole(std::string_view text, Read read)
    -> std::optional<decltype(read(std::declval<Scanner&>()))> {
  try {
    Scanner scanner(text, 0);
    scanner.skip_blanks();
    auto made = read(scanner);
    scanner.skip_blanks();
    if (scanner.is_at_end()) return made;
  } catch (const Unsound&) {
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::vector<TomlLine>> lay_out_toml(std::string_view text) {
  try {
    return Layout(text).run();
  } catch (const Unsound&) {
    return std::nullopt;
  }
}

std::optional<TomlLayoutValue> lay_out_value(std::string_view text) {
  auto value = whole(text, [](Scanner& scanner) { return scanner.value(); });
  // The layout takes much for a bare word; the reader knows better.
  if (value && !read_toml("x = " + std::string(text), "").is_whole()) return std::nullopt;
  return value;
}

std::optional<std::vector<TomlWord>> lay_out_key(std::string_view text) {
  return whole(text, [](Scanner& scanner) { return scanner.key(); });
}

std::string text_of(const TomlLayoutValue& value, std::string_view document) {
  try {
    return unquoted(value.span.of(document));
  } catch (const Unsound&) {
    return {};
  }
}

}  // namespace tideover::base
