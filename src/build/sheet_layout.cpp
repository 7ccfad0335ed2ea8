#include "build/sheet_layout.hpp"

#include <algorithm>
#include <charconv>

namespace tideover::build {

using base::TomlLayoutEntry;
using base::TomlLayoutValue;
using base::TomlLine;
using base::TomlSpan;
using Kind = TomlLayoutValue::Kind;

namespace {

SheetPath joined(const SheetPath& path, const std::vector<base::TomlWord>& words) {
  SheetPath longer = path;
  for (const base::TomlWord& word : words) longer.push_back(word.name);
  return longer;
}

SheetPath joined(const SheetPath& path, std::size_t number) {
  SheetPath longer = path;
  longer.push_back(std::to_string(number));
  return longer;
}

std::optional<std::size_t> number_of(const std::string& word) {
  std::size_t number = 0;
  const auto [end, fault] = std::from_chars(word.data(), word.data() + word.size(), number);
  if (fault != std::errc() || end != word.data() + word.size()) return std::nullopt;
  return number;
}

/// The words that follow `path` in `longer`, which begins with it.
SheetPath rest_of(const SheetPath& longer, std::size_t path) {
  return {longer.begin() + static_cast<std::ptrdiff_t>(path), longer.end()};
}

/// Inside `branch.at.value`, one step towards the rest; false if there is none.
bool step_in(SheetBranch& branch) {
  const TomlLayoutValue& here = *branch.at.value;
  if (here.kind == Kind::List) {
    const auto number = number_of(branch.rest.front());
    if (!number || *number == 0 || *number > here.items.size()) return false;
    branch.at.within = &here;
    branch.at.number = *number - 1;
    branch.at.value = &here.items[*number - 1];
    branch.rest.erase(branch.rest.begin());
    return true;
  }
  for (std::size_t k = 0; k < here.entries.size(); ++k) {
    const TomlLayoutEntry& entry = here.entries[k];
    const SheetPath words = joined({}, entry.key);
    if (!begins_with(branch.rest, words)) continue;
    branch.at.within = &here;
    branch.at.number = k;
    branch.at.value = &entry.value;
    branch.rest = rest_of(branch.rest, words.size());
    return true;
  }
  return false;
}

void add_keys(const SheetPath& path, const TomlLayoutValue& value, std::vector<SheetKey>& keys) {
  for (std::size_t k = 0; k < value.items.size(); ++k) {
    add_keys(joined(path, k + 1), value.items[k], keys);
  }
  for (const TomlLayoutEntry& entry : value.entries) {
    SheetPath inner = path;
    for (const base::TomlWord& word : entry.key) {
      inner.push_back(word.name);
      keys.push_back({inner, word.span});
    }
    add_keys(inner, entry.value, keys);
  }
}

void add_leaves(const SheetPath& path, const TomlLayoutValue& value,
                std::vector<SheetLeaf>& leaves) {
  if (value.kind == Kind::Bare || value.kind == Kind::Text) leaves.push_back({path, &value});
  for (std::size_t k = 0; k < value.items.size(); ++k) {
    add_leaves(joined(path, k + 1), value.items[k], leaves);
  }
  for (const TomlLayoutEntry& entry : value.entries) {
    add_leaves(joined(path, entry.key), entry.value, leaves);
  }
}

/// The keys of a header lie at the places of its path that are no numbers of items.
void add_header_keys(const TomlLine& line, std::vector<SheetKey>& keys) {
  std::size_t at = 0;
  for (const base::TomlWord& word : line.key) {
    while (line.path[at] != word.name) ++at;
    ++at;
    keys.push_back(
        {{line.path.begin(), line.path.begin() + static_cast<std::ptrdiff_t>(at)}, word.span});
  }
}

}  // namespace

bool begins_with(const SheetPath& path, const SheetPath& beginning) {
  return path.size() >= beginning.size() &&
         std::equal(beginning.begin(), beginning.end(), path.begin());
}

std::optional<SheetLayout> SheetLayout::of(std::string text) {
  auto lines = base::lay_out_toml(text);
  if (!lines) return std::nullopt;
  SheetLayout layout;
  layout.text_ = std::move(text);
  layout.lines_ = *std::move(lines);
  return layout;
}

std::optional<SheetPlace> SheetLayout::find(const SheetPath& path) const {
  for (const TomlLine& line : lines_) {
    if (line.kind != TomlLine::Kind::Entry && line.path == path) return SheetPlace{&line};
  }
  auto branch = branch_towards(path);
  if (!branch || !branch->rest.empty()) return std::nullopt;
  return branch->at;
}

std::optional<SheetBranch> SheetLayout::branch_towards(const SheetPath& path) const {
  for (const TomlLine& line : lines_) {
    if (line.kind != TomlLine::Kind::Entry || !begins_with(path, line.path)) continue;
    SheetBranch branch{{&line, &line.value}, rest_of(path, line.path.size())};
    while (!branch.rest.empty() && step_in(branch)) {
    }
    return branch;
  }
  return std::nullopt;
}

const TomlLine* SheetLayout::header_around(const SheetPath& path) const {
  const TomlLine* around = nullptr;
  for (const TomlLine& line : lines_) {
    if (line.kind == TomlLine::Kind::Entry || line.path.size() >= path.size()) continue;
    if (!begins_with(path, line.path)) continue;
    if (around == nullptr || line.path.size() > around->path.size()) around = &line;
  }
  return around;
}

std::vector<std::size_t> SheetLayout::lines_of(const SheetPath& path) const {
  std::vector<std::size_t> found;
  for (std::size_t k = 0; k < lines_.size(); ++k) {
    if (begins_with(lines_[k].path, path)) found.push_back(k);
  }
  return found;
}

bool SheetLayout::has(const SheetPath& path) const {
  return find(path).has_value() || !lines_of(path).empty();
}

const TomlLine& SheetLayout::last_of_body(const TomlLine& header) const {
  const TomlLine* last = &header;
  const auto first = static_cast<std::size_t>(&header - lines_.data());
  for (std::size_t k = first + 1; k < lines_.size(); ++k) {
    if (lines_[k].kind != TomlLine::Kind::Entry) break;
    last = &lines_[k];
  }
  return *last;
}

std::size_t SheetLayout::count_items(const SheetPath& path) const {
  const auto place = find(path);
  if (place && place->value != nullptr) return place->value->items.size();
  std::size_t count = 0;
  for (const TomlLine& line : lines_) {
    const bool is_item = line.kind == TomlLine::Kind::Item && begins_with(line.path, path) &&
                         line.path.size() == path.size() + 1;
    if (is_item) ++count;
  }
  return count;
}

std::vector<std::string> SheetLayout::names_under(const SheetPath& path) const {
  std::vector<std::string> names;
  const auto add = [&](const SheetPath& longer) {
    if (longer.size() <= path.size() || !begins_with(longer, path)) return;
    const std::string& name = longer[path.size()];
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const TomlLine& line : lines_) add(line.path);
  if (!names.empty()) return names;
  for (const SheetKey& key : keys()) add(key.path);
  return names;
}

std::vector<SheetKey> SheetLayout::keys() const {
  std::vector<SheetKey> keys;
  for (const TomlLine& line : lines_) {
    if (line.kind != TomlLine::Kind::Entry) {
      add_header_keys(line, keys);
      continue;
    }
    SheetPath path(line.path.begin(), line.path.begin() + static_cast<std::ptrdiff_t>(line.header));
    for (const base::TomlWord& word : line.key) {
      path.push_back(word.name);
      keys.push_back({path, word.span});
    }
    add_keys(path, line.value, keys);
  }
  return keys;
}

std::vector<SheetLeaf> SheetLayout::leaves() const {
  std::vector<SheetLeaf> leaves;
  for (const TomlLine& line : lines_) {
    if (line.kind == TomlLine::Kind::Entry) add_leaves(line.path, line.value, leaves);
  }
  return leaves;
}

std::string SheetLayout::line_end() const {
  const std::size_t first = text_.find('\n');
  const bool is_wide = first != std::string::npos && first > 0 && text_[first - 1] == '\r';
  return is_wide ? "\r\n" : "\n";
}

bool SheetLayout::replace(const TomlSpan& span, std::string_view by) {
  std::string text = text_;
  text.replace(span.begin, span.end - span.begin, by);
  auto changed = of(std::move(text));
  if (!changed) return false;
  *this = *std::move(changed);
  return true;
}

}  // namespace tideover::build
