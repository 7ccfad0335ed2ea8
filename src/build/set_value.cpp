#include <algorithm>
#include <optional>
#include <span>
#include <utility>

#include "base/text.hpp"
#include "build/parameter.hpp"

namespace tideover::build {

namespace {

using part::Described;
using part::Field;

/// What a path leads to: the table that has the value, and the value's key in it.
struct Target {
  Described* owner = nullptr;
  std::string key;
  part::Part* part = nullptr;  ///< whose it is; null for needs and leads
};

base::Problem problem(const std::string& text, const std::string& remedy) {
  base::Problem told{{}, text, remedy};
  told.place.file = "--set";
  return told;
}

std::vector<std::string> pieces_of(std::string_view path) {
  std::vector<std::string> pieces(1);
  for (const char c : path) {
    if (c == '.') {
      pieces.emplace_back();
    } else {
      pieces.back() += c;
    }
  }
  return pieces;
}

std::vector<std::string> keys_of(const Described& thing) {
  std::vector<std::string> keys;
  for (const Field& field : thing.description().fields) keys.push_back(field.key);
  return keys;
}

/// One table further in; null if there is none of that name, `pieces` moved on past it.
Described* step_in(Described& thing, std::span<const std::string>& pieces) {
  const Field* const field = thing.description().find(pieces.front());
  if (field == nullptr) return nullptr;
  pieces = pieces.subspan(1);
  if (const auto* const record = std::get_if<part::RecordField>(&field->what)) {
    return &record->record(thing);
  }
  const auto* const records = std::get_if<part::RecordsField>(&field->what);
  if (records == nullptr || pieces.size() < 2) return nullptr;
  const std::vector<Described*> items = records->all(thing);
  const std::string number = pieces.front();
  pieces = pieces.subspan(1);
  for (std::size_t k = 0; k < items.size(); ++k) {
    if (number == std::to_string(k + 1)) return items[k];
  }
  return nullptr;
}

/// The only table inside `thing` that has `key`, however deep; null if there is none or several.
Described* only_owner(Described& thing, const std::string& key, int& found) {
  Described* owner = nullptr;
  for (const Field& field : thing.description().fields) {
    const auto* const record = std::get_if<part::RecordField>(&field.what);
    if (record == nullptr) continue;
    Described& inner = record->record(thing);
    if (inner.description().find(key) != nullptr) {
      owner = &inner;
      ++found;
    }
    if (Described* const deeper = only_owner(inner, key, found)) owner = deeper;
  }
  return found == 1 ? owner : nullptr;
}

Described* owner_in(Described& thing, std::span<const std::string> pieces) {
  Described* at = &thing;
  while (at != nullptr && pieces.size() > 1) at = step_in(*at, pieces);
  if (at == nullptr) return nullptr;
  if (at->description().find(pieces.front()) != nullptr) return at;
  int found = 0;
  return only_owner(*at, pieces.front(), found);
}

/// The things of a build by the first word of a path.
struct Root {
  Described* thing = nullptr;
  part::Part* part = nullptr;
  std::size_t taken = 1;  ///< words of the path
};

Root root_of(Build& build, const std::vector<std::string>& pieces) {
  if (pieces[0] == "needs") return {&build.needs};
  if (pieces[0] == "leads" && pieces.size() > 1) {
    const auto lead = std::ranges::find(build.leads, pieces[1], &Lead::name);
    return {lead == build.leads.end() ? nullptr : &lead->wire, nullptr, 2};
  }
  for (const auto& part : build.parts) {
    if (part->name == pieces[0]) return {part.get(), part.get()};
  }
  return {};
}

std::vector<std::string> names_in(const Build& build, const std::vector<std::string>& pieces) {
  std::vector<std::string> names;
  if (pieces[0] == "leads") {
    for (const Lead& lead : build.leads) names.push_back("leads." + lead.name);
    return names;
  }
  names = {"needs", "leads"};
  for (const auto& part : build.parts) names.push_back(part->name);
  return names;
}

std::string hint(const std::string& word, const std::vector<std::string>& valid) {
  const auto near = base::nearest_word(word, valid);
  return near ? "Did you mean `" + *near + "`?"
              : "There is " + base::quoted_list(valid, "and") + ".";
}

base::Result<Target> find_target(Build& build, const std::string& path) {
  const std::vector<std::string> pieces = pieces_of(path);
  const Root root = root_of(build, pieces);
  if (root.thing == nullptr) {
    const bool is_lead = pieces[0] == "leads" && pieces.size() > 1;
    const std::string name = is_lead ? "leads." + pieces[1] : pieces[0];
    return problem("the build has no `" + name + "`", hint(name, names_in(build, pieces)));
  }
  const std::span<const std::string> rest = std::span(pieces).subspan(root.taken);
  if (!rest.empty()) {
    Described* const owner = owner_in(*root.thing, rest);
    if (owner != nullptr) return Target{owner, rest.back(), root.part};
  }
  return problem("`" + path + "` is no value of the build",
                 rest.empty() ? "Say which: " + base::quoted_list(keys_of(*root.thing)) + "."
                              : hint(rest.back(), keys_of(*root.thing)));
}

/// As it would stand in a sheet: numbers, yes and no as they are, all else as text.
std::string in_sheet(const std::string& value, const Field& field) {
  const bool is_bare = std::holds_alternative<part::CountField>(field.what) ||
                       std::holds_alternative<part::FlagField>(field.what) ||
                       value.starts_with('{') || value.starts_with('[') || value.starts_with('"');
  if (is_bare) return value;
  std::string text = "\"";
  for (const char c : value) {
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  return text + "\"";
}

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

std::vector<std::string> terminal_names(const part::Part& part) {
  std::vector<std::string> names;
  for (const part::Terminal& terminal : part.terminals()) names.push_back(terminal.name);
  return names;
}

base::Problems read_into(const Target& target, const std::string& value, const part::Stock& stock) {
  const Field& field = *target.owner->description().find(target.key);
  const std::string text = target.key + " = " + in_sheet(value, field);
  const base::TomlReading toml = base::read_toml(text, "--set");
  if (!toml.problems.empty()) return toml.problems;
  part::Findings findings;
  part::FieldReader reader(stock, findings, false);
  reader.read(toml.root, *target.owner, "");
  base::Problems all = std::move(findings.form);
  all.insert(all.end(), findings.sense.begin(), findings.sense.end());
  return all;
}

/// What setting a value must not change for the worse.
struct Standing {
  explicit Standing(const part::Part& part)
      : terminals(terminal_names(part)), contradictions(part.contradictions()) {}
  std::vector<std::string> terminals;
  std::vector<std::string> contradictions;
};

base::Problems compare(const Standing& before, const part::Part& part) {
  base::Problems all;
  if (terminal_names(part) != before.terminals) {
    all.push_back(problem("`" + part.name + "` would have other terminals than its leads know",
                          "Change it in the sheet, where its wiring stands."));
  }
  for (const std::string& sentence : part.contradictions()) {
    if (std::ranges::find(before.contradictions, sentence) != before.contradictions.end()) continue;
    all.push_back(problem("`" + part.name + "`: " + sentence, ""));
  }
  return all;
}

}  // namespace

base::Problems set_value(Build& build, const std::string& assignment, const part::Stock& stock) {
  const auto equals = assignment.find('=');
  const std::string path = trimmed(assignment.substr(0, equals));
  if (equals == std::string::npos || path.empty()) {
    return {problem("expected PATH=VALUE, found `" + assignment + "`",
                    "Write `--set \"pack.capacity=3.8 Ah\"`.")};
  }
  const auto target = find_target(build, path);
  if (!target) return target.problems();
  part::Part* const part = target.value().part;
  std::optional<Standing> before;
  if (part != nullptr) before.emplace(*part);
  base::Problems problems =
      read_into(target.value(), trimmed(assignment.substr(equals + 1)), stock);
  if (!problems.empty() || part == nullptr) return problems;
  return compare(*before, *part);
}

}  // namespace tideover::build
