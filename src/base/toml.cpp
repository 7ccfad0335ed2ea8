#include "base/toml.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <variant>

#include "base/text.hpp"
#include "base/toml_parse.hpp"
#include "base/toml_scan.hpp"

namespace tideover::base {
namespace {

constexpr std::size_t most_problems = 20;

TomlSource split_lines(std::string_view text, const std::string& file) {
  TomlSource source{file, {}};
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    if (line.ends_with('\r')) line.remove_suffix(1);
    source.lines.emplace_back(line);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return source;
}

std::optional<std::size_t> first_control(std::string_view line) {
  for (std::size_t at = 0; at < line.size(); ++at) {
    const auto byte = static_cast<unsigned char>(line[at]);
    if ((byte < 0x20 && byte != '\t') || byte == 0x7F) return at;
  }
  return std::nullopt;
}

Problem too_long(std::size_t line, const TomlSource& source) {
  Problem problem{{}, "", "Break it: a list may go on over several lines."};
  problem.text = "this line is longer than " + std::to_string(longest_toml_line) + " bytes";
  problem.place.file = source.file;
  problem.place.line = static_cast<int>(line) + 1;
  return problem;
}

/// Lines and bytes that no TOML text of ours may hold; one problem a line.
Problems check_bytes(const TomlSource& source) {
  Problems problems;
  for (std::size_t i = 0; i < source.lines.size() && problems.size() < most_problems; ++i) {
    const std::string& line = source.lines[i];
    if (line.size() > longest_toml_line) {
      problems.push_back(too_long(i, source));
      continue;
    }
    const auto bad = first_bad_utf8(line);
    const auto control = first_control(line);
    if (!bad && !control) continue;
    const std::size_t at = std::min(bad.value_or(line.size()), control.value_or(line.size()));
    const auto column = static_cast<int>(count_code_points(line.substr(0, at))) + 1;
    const TomlMark mark{static_cast<int>(i) + 1, column, 1};
    if (bad == at) {
      problems.push_back({place_of(mark, source), "this byte is not UTF-8",
                          "Save the file as UTF-8; in another encoding a µ or ° looks like this."});
    } else {
      problems.push_back({place_of(mark, source), "a control character stands here",
                          "Delete it; only tabs and line ends are allowed between the words."});
    }
  }
  return problems;
}

class Reading {
 public:
  explicit Reading(TomlSource source)
      : source_(std::make_shared<const TomlSource>(std::move(source))), lines_(source_->lines) {
    // Headers with faults are replaced by this one, so that the keys below them are left out too
    // and do not fall into the table above. No key of the text may be spelled so.
    left_out_ = "left-out";
    while (std::any_of(lines_.begin(), lines_.end(), [this](const std::string& line) {
      return line.find(left_out_) != std::string::npos;
    })) {
      left_out_ += "-x";
    }
  }

  TomlReading run() {
    statements_ = scan_toml(lines_);
    for (const TomlStatement& statement : statements_) {
      if (!statement.fault || problems_.size() >= most_problems) continue;
      tell(statement.fault->mark, statement.fault->text, statement.fault->remedy);
    }
    for (const TomlStatement& statement : statements_) {
      if (statement.fault) leave_out(statement);
    }
    // A parse takes time in proportion to the text: a large broken text gets fewer of them.
    const std::size_t parses = std::clamp<std::size_t>(
        (largest_toml_bytes * 4) / (text_from(0, lines_.size()).size() + 1), 1, most_problems + 1);
    TomlNode root = empty_root();
    for (std::size_t i = 0; i < parses; ++i) {
      auto parsed = parse_toml(text_from(0, lines_.size()), source_);
      if (auto* tree = std::get_if<TomlNode>(&parsed)) {
        root = std::move(*tree);
        break;
      }
      if (!tell_failure(std::get<TomlFailure>(parsed))) break;
    }
    drop_left_out(root);
    return finish(std::move(root));
  }

 private:
  [[nodiscard]] TomlNode empty_root() const {
    TomlNode root;
    root.source = source_;
    return root;
  }

  void tell(const TomlMark& mark, std::string text, std::string remedy) {
    problems_.push_back({place_of(mark, *source_), std::move(text), std::move(remedy)});
  }

  [[nodiscard]] std::string text_from(std::size_t first, std::size_t last) const {
    std::string text;
    for (std::size_t i = first; i < last; ++i) text.append(lines_[i]).append("\n");
    return text;
  }

  void leave_out(const TomlStatement& statement) {
    for (std::size_t i = statement.first_line; i <= statement.last_line; ++i) lines_[i].clear();
    if (!statement.is_header) return;
    lines_[statement.first_line] = "[" + left_out_ + std::to_string(++count_left_out_) + "]";
  }

  void drop_left_out(TomlNode& root) const {
    std::erase_if(root.entries,
                  [this](const TomlEntry& entry) { return entry.key.starts_with(left_out_); });
  }

  /// Tells the failure and leaves its statement out. False if reading on makes no sense.
  bool tell_failure(const TomlFailure& failure) {
    const auto line = static_cast<std::size_t>(std::max(0, failure.line - 1));
    const TomlStatement* statement = nullptr;
    for (const TomlStatement& candidate : statements_) {
      if (candidate.first_line <= line) statement = &candidate;
    }
    if (statement == nullptr || lines_[statement->first_line].empty()) {
      tell({failure.line, failure.column, 1}, readable(failure.text), "");
      return false;
    }
    const bool is_repeated = failure.text.find("cannot redefine") != std::string::npos ||
                             failure.text.find("cannot insert") != std::string::npos;
    if (is_repeated) {
      tell_repeated(*statement);
    } else {
      TomlMark mark{failure.line, failure.column, 1};
      // At the end of a text the parser points behind it.
      if (line > statement->last_line) mark = start_of(*statement);
      tell_unreadable(*statement, failure, mark);
    }
    leave_out(*statement);
    return problems_.size() < most_problems;
  }

  [[nodiscard]] TomlMark start_of(const TomlStatement& statement) const {
    const std::string_view line = lines_[statement.first_line];
    const std::size_t first = line.find_first_not_of(" \t");
    std::size_t last = line.find_last_not_of(" \t");
    if (!statement.is_header) {
      const std::size_t equals = find_equals(line);
      if (equals != std::string_view::npos && equals > first) {
        last = line.substr(0, equals).find_last_not_of(" \t");
      }
    }
    const auto column = static_cast<int>(count_code_points(line.substr(0, first))) + 1;
    const auto length = static_cast<int>(count_code_points(line.substr(first, last + 1 - first)));
    return {static_cast<int>(statement.first_line) + 1, column, std::max(1, length)};
  }

  static std::string readable(std::string_view text) {
    const std::size_t colon = text.find(": ");
    if (text.starts_with("Error while parsing ") && colon != std::string_view::npos) {
      text.remove_prefix(colon + 2);
    }
    return "the line cannot be read as TOML: " + std::string(text);
  }

  /// What stands behind the `=` on the statement's first line, without a comment.
  struct Value {
    std::size_t at = 0;
    std::string_view text;
  };

  [[nodiscard]] std::optional<Value> value_of(const TomlStatement& statement) const {
    const std::string_view line = lines_[statement.first_line];
    const std::size_t equals = find_equals(line);
    if (statement.is_header || equals == std::string_view::npos) return std::nullopt;
    std::string_view text = line.substr(equals + 1);
    text = text.substr(0, text.find('#'));
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return Value{equals, {}};
    text = text.substr(first, text.find_last_not_of(" \t") + 1 - first);
    return Value{equals + 1 + first, text};
  }

  /// The slips that are made most, in our own words; else what the parser said.
  void tell_unreadable(const TomlStatement& statement, const TomlFailure& failure, TomlMark mark) {
    const auto value = value_of(statement);
    const std::string_view line = lines_[statement.first_line];
    if (!value) {
      tell(mark, readable(failure.text),
           statement.is_header ? "A header is a name between brackets, such as `[parts.pack]`."
                               : "Write `key = \"value\"`, or `[name]` for a table.");
    } else if (value->text.empty()) {
      tell(mark, "there is no value behind the `=`", "Write one, or delete the key.");
    } else if (is_text_without_quotes(value->text)) {
      mark = {static_cast<int>(statement.first_line) + 1,
              static_cast<int>(count_code_points(line.substr(0, value->at))) + 1,
              static_cast<int>(count_code_points(value->text))};
      const std::size_t first = line.find_first_not_of(" \t");
      tell(mark, "`" + std::string(value->text) + "` stands without quotes",
           "Text, and a value with its unit, goes between quotes: `" +
               std::string(line.substr(first, value->at - first)) + "\"" +
               std::string(value->text) + "\"`.");
    } else {
      tell(mark, readable(failure.text), "");
    }
  }

  static bool is_text_without_quotes(std::string_view value) {
    const bool has_letter = std::any_of(value.begin(), value.end(), [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%';
    });
    return has_letter && value.size() <= 80 &&
           value.find_first_of("\"'[]{}\\") == std::string_view::npos;
  }

  /// The keys from the root to what the statement gives; empty if that cannot be told.
  [[nodiscard]] std::vector<std::string> path_of(const TomlStatement& statement) const {
    std::string text;
    for (const TomlStatement& other : statements_) {
      if (!other.is_header || other.first_line >= statement.first_line) continue;
      text = lines_[other.first_line] + "\n";
    }
    const std::string& line = lines_[statement.first_line];
    const std::size_t equals = find_equals(line);
    if (!statement.is_header && equals == std::string::npos) return {};
    text = statement.is_header ? line : text + line.substr(0, equals + 1) + " 0";
    auto parsed = parse_toml(text + "\n", source_);
    if (!std::holds_alternative<TomlNode>(parsed)) return {};
    return only_path(std::get<TomlNode>(std::move(parsed)));
  }

  /// Down a tree in which every table has one key.
  static std::vector<std::string> only_path(TomlNode node) {
    std::vector<std::string> path;
    while (true) {
      if (node.kind == TomlNode::Kind::Array && !node.items.empty()) {
        TomlNode item = std::move(node.items.back());
        node = std::move(item);
      } else if (!node.entries.empty()) {
        path.push_back(node.entries.front().key);
        TomlNode value = std::move(node.entries.front().value);
        node = std::move(value);
      } else {
        return path;
      }
    }
  }

  void tell_repeated(const TomlStatement& statement) {
    const std::vector<std::string> path = path_of(statement);
    auto parsed = parse_toml(text_from(0, statement.first_line), source_);
    const TomlNode* const tree = std::get_if<TomlNode>(&parsed);
    const TomlNode before = tree != nullptr ? *tree : empty_root();
    const TomlNode* node = &before;
    const TomlEntry* found = nullptr;
    std::size_t depth = 0;
    while (depth < path.size()) {
      if (node->kind == TomlNode::Kind::Array && !node->items.empty()) node = &node->items.back();
      const auto at =
          std::find_if(node->entries.begin(), node->entries.end(),
                       [&](const TomlEntry& entry) { return entry.key == path[depth]; });
      if (at == node->entries.end()) break;
      found = &*at;
      node = &at->value;
      ++depth;
    }
    tell_meeting(statement, path, found, depth);
  }

  void tell_meeting(const TomlStatement& statement, const std::vector<std::string>& path,
                    const TomlEntry* found, std::size_t depth) {
    const TomlMark mark = start_of(statement);
    if (found == nullptr || path.empty()) {
      tell(mark, "a key is given twice", "Keep one of them.");
      return;
    }
    const std::string at = "line " + std::to_string(found->key_mark.line);
    if (depth == path.size()) {
      tell(mark, "`" + path.back() + "` is given twice, first on " + at, "Keep one of them.");
    } else if (found->value.kind != TomlNode::Kind::Table) {
      tell(mark,
           "`" + found->key + "` is " + in_words(found->value.kind) + " on " + at +
               " and cannot hold `" + path.back() + "`",
           "");
    } else {
      tell(mark, "a key is given twice; `" + found->key + "` stands on " + at, "Keep one of them.");
    }
  }

  TomlReading finish(TomlNode root) {
    std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
      return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
    });
    return {std::move(root), std::move(problems_)};
  }

  std::shared_ptr<const TomlSource> source_;
  std::vector<std::string> lines_;
  std::vector<TomlStatement> statements_;
  std::string left_out_;
  int count_left_out_ = 0;
  Problems problems_;
};

TomlReading refuse_whole(const std::string& file, std::string text, std::string remedy) {
  TomlReading reading;
  reading.root.source = std::make_shared<const TomlSource>(TomlSource{file, {}});
  Problem problem{{}, std::move(text), std::move(remedy)};
  problem.place.file = file;
  reading.problems.push_back(std::move(problem));
  return reading;
}

}  // namespace

TomlReading read_toml(std::string_view text, const std::string& file_name) {
  if (text.size() > largest_toml_bytes) {
    return refuse_whole(file_name, "is larger than 4 MiB",
                        "Check that this is the file you meant.");
  }
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    return refuse_whole(file_name, "is UTF-16 text", "Save the file as UTF-8.");
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  TomlSource source = split_lines(text, file_name);
  Problems problems = check_bytes(source);
  if (problems.empty()) return Reading(std::move(source)).run();
  TomlReading reading;
  reading.root.source = std::make_shared<const TomlSource>(std::move(source));
  reading.problems = std::move(problems);
  return reading;
}

}  // namespace tideover::base
