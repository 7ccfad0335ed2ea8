#include "base/toml_scan.hpp"

#include "base/text.hpp"

namespace tideover::base {
namespace {

bool is_bare(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-';
}

std::string_view skip_blanks(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  return first == std::string_view::npos ? std::string_view{} : text.substr(first);
}

/// Inside an open list no line can begin with `key =`, nor with `[word`, so such a line tells that
/// the bracket was forgotten.
bool begins_key(std::string_view line) {
  line = skip_blanks(line);
  if (line.empty() || !is_bare(line.front())) return false;
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return false;
  return line.substr(0, equals).find_first_of("\"'[]{},#") == std::string_view::npos;
}

bool begins_header(std::string_view line) {
  line = skip_blanks(line);
  if (line.empty() || line.front() != '[') return false;
  const std::size_t first = line.find_first_not_of("[ \t");
  if (first == std::string_view::npos) return false;
  const std::string_view rest = line.substr(first);
  const std::size_t length = rest.find_first_of(" \t],.");
  const std::string_view word = rest.substr(0, length);
  const bool letter = is_bare(word.empty() ? ' ' : word.front()) &&
                      !(word.front() >= '0' && word.front() <= '9') && word.front() != '-';
  return letter && word != "true" && word != "false" && word != "inf" && word != "nan";
}

class Scanner {
 public:
  explicit Scanner(const std::vector<std::string>& lines) : lines_(lines) {}

  std::vector<TomlStatement> run() {
    std::vector<TomlStatement> statements;
    while (line_ < lines_.size()) {
      const std::string_view rest = skip_blanks(lines_[line_]);
      if (rest.empty() || rest.front() == '#') {
        ++line_;
        continue;
      }
      scan_statement(rest.front() == '[');
      statements.push_back(std::move(statement_));
    }
    return statements;
  }

 private:
  struct Opener {
    char bracket;
    std::size_t line;
    std::size_t at;
  };

  [[nodiscard]] const std::string& line() const { return lines_[line_]; }

  /// Keeps the first fault of a statement. Counting columns walks the line, so it is done once.
  void set_fault(std::size_t line, std::size_t at, std::string text, std::string remedy) {
    if (statement_.fault) return;
    const std::string_view before = std::string_view(lines_[line]).substr(0, at);
    const TomlMark mark{static_cast<int>(line) + 1, static_cast<int>(count_code_points(before)) + 1,
                        1};
    statement_.fault = TomlFault{mark, std::move(text), std::move(remedy)};
  }

  void scan_statement(bool is_header) {
    statement_ = {line_, line_, is_header, std::nullopt};
    openers_.clear();
    dots_ = 0;
    at_ = 0;
    while (true) {
      scan_line();
      statement_.last_line = line_;
      ++line_;
      at_ = 0;
      if (openers_.empty() || is_header) break;
      if (openers_.back().bracket == '{') tell_broken_inline_table();
      const bool ends = line_ >= lines_.size() || begins_header(lines_[line_]) ||
                        (openers_.back().bracket == '[' && begins_key(lines_[line_]));
      if (ends) break;
    }
    if (!openers_.empty()) tell_unclosed();
  }

  void tell_broken_inline_table() {
    const Opener& opener = openers_.back();
    set_fault(opener.line, opener.at, "a table between braces goes on over the end of its line",
              "TOML 1.0 wants `{ ... }` on one line; for more room use a header such as "
              "`[parts.name]`.");
  }

  void tell_unclosed() {
    const Opener& opener = openers_.back();
    const bool brace = opener.bracket == '{';
    set_fault(opener.line, opener.at, "this bracket is never closed",
              std::string("Close it with `") + (brace ? "}" : "]") + "`.");
  }

  void scan_line() {
    while (at_ < line().size()) {
      const char c = line()[at_];
      if (c == '#') return;
      if (c == '"' || c == '\'') {
        scan_string(c);
        continue;
      }
      if (static_cast<unsigned char>(c) >= 0x80 && !statement_.fault) {
        set_fault(line_, at_, "a character outside ASCII stands outside quotes",
                  "Put text, and keys with such letters, between quotes.");
      }
      count_bracket(c);
      ++at_;
    }
  }

  void count_bracket(char c) {
    if (c == '[' || c == '{') openers_.push_back({c, line_, at_});
    if ((c == ']' || c == '}') && !openers_.empty()) openers_.pop_back();
    if (c == '.') ++dots_;
    if (c == '=' || c == ',' || c == '[' || c == '{') dots_ = 0;
    if (openers_.size() > static_cast<std::size_t>(deepest_toml) || dots_ > deepest_toml) {
      set_fault(line_, at_, "nested deeper than " + std::to_string(deepest_toml) + " levels",
                "No build sheet needs that; check the brackets and the dots.");
    }
  }

  void scan_string(char quote) {
    const std::string triple(3, quote);
    if (line().compare(at_, 3, triple) == 0) {
      scan_long_string(triple);
      return;
    }
    const std::size_t begin = at_;
    for (++at_; at_ < line().size(); ++at_) {
      if (line()[at_] == '\\' && quote == '"') {
        ++at_;
      } else if (line()[at_] == quote) {
        ++at_;
        return;
      }
    }
    at_ = line().size();
    set_fault(line_, begin, "this quote is never closed",
              std::string("Close it on the same line with `") + quote + "`.");
    openers_.clear();
  }

  void scan_long_string(const std::string& triple) {
    const std::size_t begin_line = line_;
    const std::size_t begin = at_;
    at_ += 3;
    while (true) {
      const std::size_t end = find_triple(triple);
      if (end != std::string::npos) {
        at_ = end + 3;
        // Up to two more quotes belong to the text itself.
        for (int i = 0; i < 2 && at_ < line().size() && line()[at_] == triple[0]; ++i) ++at_;
        return;
      }
      if (line_ + 1 >= lines_.size()) break;
      ++line_;
      at_ = 0;
    }
    at_ = line().size();
    set_fault(begin_line, begin, "the text that begins here is never closed",
              "Close it with `" + triple + "`.");
    openers_.clear();
  }

  [[nodiscard]] std::size_t find_triple(const std::string& triple) const {
    for (std::size_t at = at_; at + 3 <= line().size(); ++at) {
      if (line()[at] == '\\' && triple[0] == '"') {
        ++at;
      } else if (line().compare(at, 3, triple) == 0) {
        return at;
      }
    }
    return std::string::npos;
  }

  const std::vector<std::string>& lines_;
  std::size_t line_ = 0;
  std::size_t at_ = 0;
  int dots_ = 0;
  std::vector<Opener> openers_;
  TomlStatement statement_;
};

}  // namespace

std::vector<TomlStatement> scan_toml(const std::vector<std::string>& lines) {
  return Scanner(lines).run();
}

std::size_t find_equals(std::string_view line) {
  char quote = '\0';
  for (std::size_t at = 0; at < line.size(); ++at) {
    const char c = line[at];
    if (quote != '\0') {
      if (c == '\\' && quote == '"') ++at;
      if (c == quote) quote = '\0';
    } else if (c == '"' || c == '\'') {
      quote = c;
    } else if (c == '=') {
      return at;
    } else if (c == '#') {
      break;
    }
  }
  return std::string_view::npos;
}

}  // namespace tideover::base
