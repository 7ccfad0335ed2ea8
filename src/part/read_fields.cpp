#include "part/read_fields.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.hpp"
#include "quantity/text.hpp"

namespace tideover::part {

using base::TomlNode;
using Kind = base::TomlNode::Kind;

namespace {

std::string quoted(std::string_view word) { return "`" + std::string(word) + "`"; }

std::vector<std::string> keys_of(const Description& description) {
  std::vector<std::string> keys;
  for (const Field& field : description.fields) keys.push_back(field.key);
  return keys;
}

bool holds(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

quantity::Form form_of(const AmountField& field) {
  return field.is_range ? quantity::Form::Range : quantity::Form::Value;
}

}  // namespace

const std::vector<std::string>& origin_words() {
  static const std::vector<std::string> words{"measured", "datasheet", "typical", "assumed"};
  return words;
}

std::string with_article(const std::string& word) {
  if (word.ends_with('s')) return word;
  const bool is_vowel =
      !word.empty() && std::string_view("aeiou").find(word[0]) != std::string::npos;
  return (is_vowel ? "an " : "a ") + word;
}

bool is_factor(const AmountField& field) {
  return field.dimension == quantity::Dimension{} && field.highest_si > 1.0;
}

quantity::Measure measure_of_field(const AmountField& field) {
  return {field.dimension, field.is_temperature_point, is_factor(field)};
}

// --- telling

bool FieldReader::has_room() {
  if (count() < most_findings) return true;
  if (count() == most_findings) {
    const std::string number = std::to_string(most_findings);
    findings_.form.push_back({{}, "more than " + number + " problems; the rest is not shown", ""});
  }
  return false;
}

void FieldReader::tell_form(base::Place place, std::string text, std::string remedy) {
  if (has_room()) findings_.form.push_back({std::move(place), std::move(text), std::move(remedy)});
}

void FieldReader::tell_sense(base::Place place, std::string text, std::string remedy) {
  if (has_room()) findings_.sense.push_back({std::move(place), std::move(text), std::move(remedy)});
}

void FieldReader::tell_missing(base::Place place, const std::string& key,
                               const std::string& remedy) {
  if (is_whole_) tell_form(std::move(place), quoted(key) + " is missing", remedy);
}

void FieldReader::tell_unknown_key(const base::TomlEntry& entry, const std::string& owner,
                                   const std::vector<std::string>& valid) {
  // A text may have 300 000 such keys.
  if (!has_room()) return;
  const auto near = base::nearest_word(entry.key, valid);
  tell_form(
      entry.key_place(), "there is no key " + quoted(entry.key) + " in " + owner,
      near ? "Did you mean " + quoted(*near) + "?" : "Expected " + base::quoted_list(valid) + ".");
}

const std::string* FieldReader::read_text(const TomlNode& node, const std::string& expected) {
  if (node.kind != Kind::Text) {
    tell_form(node.place(), "expected " + expected + ", found " + base::in_words(node.kind));
    return nullptr;
  }
  if (base::count_code_points(node.text) > longest_text) {
    tell_form(node.place(),
              "this text is longer than " + std::to_string(longest_text) + " letters");
    return nullptr;
  }
  return &node.text;
}

int FieldReader::read_word(const TomlNode& node, const std::vector<std::string>& words) {
  const std::string* word = read_text(node, base::quoted_list(words));
  if (word == nullptr) return -1;
  const auto at = std::find(words.begin(), words.end(), *word);
  if (at != words.end()) return static_cast<int>(at - words.begin());
  const auto near = base::nearest_word(*word, words);
  const std::string expected = "xpected " + base::quoted_list(words);
  const std::string hint = near ? "Did you mean " + quoted(*near) + "?" : "";
  if (words.size() <= 8) {
    tell_form(node.place(), "e" + expected + ", found " + quoted(*word), hint);
  } else {
    tell_form(node.place(), quoted(*word) + " is none of the words that may stand here",
              near ? hint : "E" + expected + ".");
  }
  return -1;
}

bool FieldReader::expect_table(const TomlNode& node, const std::string& what) {
  if (node.kind == Kind::Table) return true;
  tell_form(node.place(), what + " is a table, found " + base::in_words(node.kind));
  return false;
}

// --- tables

bool FieldReader::read(const TomlNode& table, Described& into, const std::string& shelf,
                       const std::vector<std::string>& others) {
  const std::size_t before = count();
  const Description& description = into.description();
  if (!expect_table(table, with_article(description.name))) return false;
  const TomlNode* row = nullptr;
  std::vector<std::string> known = others;
  if (const TomlNode* from = shelf.empty() ? nullptr : table.find(from_key)) {
    row = find_from(*from, shelf);
    if (row != nullptr) read_row(*row, into, &table);
  }
  if (!shelf.empty()) known.emplace_back(from_key);
  read_entries(table, into, known);
  const bool has_from = !shelf.empty() && table.find(from_key) != nullptr;
  for (const Field& field : description.fields) {
    const bool is_there =
        table.find(field.key) != nullptr || (row != nullptr && row->find(field.key) != nullptr);
    if (!field.is_required || is_there || (has_from && row == nullptr)) continue;
    const std::string remedy =
        "Needed of " + with_article(description.name) + ": " + field.means + ".";
    if (row == nullptr) {
      tell_missing(table.place(), field.key, remedy);
    } else {
      tell_sense(table.place(),
                 quoted(field.key) + " is missing, and its row on the shelf has none", remedy);
    }
  }
  return count() == before;
}

bool FieldReader::read_row(const TomlNode& row, Described& into, const TomlNode* over) {
  const std::size_t before = count();
  const auto origin_before = std::exchange(origin_, quantity::Origin::Typical);
  const auto source_before = std::exchange(source_, std::string());
  if (const TomlNode* origin = row.find(origin_key)) {
    const int index = read_word(*origin, origin_words());
    if (index >= 0) origin_ = static_cast<quantity::Origin>(index);
  }
  if (const TomlNode* source = row.find(source_key)) {
    if (const std::string* text = read_text(*source, "where the values come from")) source_ = *text;
  }
  std::vector<std::string> others{std::string(source_key), std::string(origin_key)};
  for (const Field& field : into.description().fields) {
    const bool is_list = std::holds_alternative<RecordsField>(field.what);
    if (is_list && over != nullptr && over->find(field.key) != nullptr) others.push_back(field.key);
  }
  read_entries(row, into, others);
  origin_ = origin_before;
  source_ = source_before;
  return count() == before;
}

const TomlNode* FieldReader::find_from(const TomlNode& node, const std::string& shelf) {
  const std::string expected = "a row of the shelf such as `shelf:name`";
  const std::string* text = read_text(node, expected);
  if (text == nullptr) return nullptr;
  if (!text->starts_with(shelf_prefix)) {
    tell_form(node.place(), "expected " + expected + ", found " + quoted(*text));
    return nullptr;
  }
  const std::string name = text->substr(shelf_prefix.size());
  const TomlNode* row = stock_.find_row(shelf, name);
  if (row != nullptr) return row;
  const std::vector<std::string> names = stock_.names(shelf);
  const auto near = base::nearest_word(name, names);
  tell_form(node.place(), "the shelf has no " + shelf + " named " + quoted(name),
            near            ? "Did you mean " + quoted(*near) + "?"
            : names.empty() ? "The shelf has none; write the values here."
                            : "It has " + base::quoted_list(names, "and") + ".");
  return nullptr;
}

void FieldReader::read_entries(const TomlNode& table, Described& into,
                               const std::vector<std::string>& others) {
  const Description& description = into.description();
  std::vector<std::string> valid = keys_of(description);
  valid.insert(valid.end(), others.begin(), others.end());
  for (const base::TomlEntry& entry : table.entries) {
    if (holds(others, entry.key)) continue;
    if (const Field* field = description.find(entry.key)) {
      read_field(entry.value, *field, into);
    } else {
      tell_unknown_key(entry, with_article(description.name), valid);
    }
  }
}

// --- fields

void FieldReader::read_field(const TomlNode& node, const Field& field, Described& into) {
  std::visit([&](const auto& what) { read_what(node, field, what, into); }, field.what);
}

void FieldReader::read_what(const TomlNode& node, const Field& field, const AmountField& what,
                            Described& into) {
  read_amount(node, field.key, what, what.amount(into));
}

bool FieldReader::read_amount(const TomlNode& node, const std::string& key,
                              const AmountField& field, quantity::Amount& into) {
  const std::size_t before = count();
  quantity::Amount amount;
  amount.origin = origin_;
  amount.source = source_;
  const TomlNode* text = &node;
  if (node.kind == Kind::Table) {
    text = node.find("value");
    if (text == nullptr) tell_missing(node.place(), "value", "Write `value = \"...\"`.");
    for (const base::TomlEntry& entry : node.entries) {
      if (entry.key == "value") continue;
      if (entry.key == origin_key) {
        const int index = read_word(entry.value, origin_words());
        if (index >= 0) amount.origin = static_cast<quantity::Origin>(index);
      } else if (entry.key == source_key) {
        const std::string* source = read_text(entry.value, "where the value comes from");
        if (source != nullptr) amount.source = *source;
      } else if (entry.key == meter_key) {
        const std::string* meter = read_text(entry.value, "the name of a meter");
        if (meter != nullptr) amount.meter = *meter;
      } else {
        tell_unknown_key(entry, "a value", {"value", "origin", "source", "meter"});
      }
    }
  }
  if (text == nullptr) return false;
  if (read_amount_text(*text, field, amount)) check_size(*text, key, field, amount);
  if (count() != before) return false;
  into = std::move(amount);
  return true;
}

bool FieldReader::read_amount_text(const TomlNode& node, const AmountField& field,
                                   quantity::Amount& into) {
  const bool is_number = node.kind == Kind::Integer || node.kind == Kind::Real;
  const std::string number = node.kind == Kind::Integer ? std::to_string(node.integer)
                             : is_number                ? base::number_text(node.real)
                                                        : std::string();
  const double bare = node.kind == Kind::Integer ? static_cast<double>(node.integer) : node.real;
  if (is_number && is_factor(field) && std::isfinite(bare)) {
    into.nominal_si = into.low_si = into.high_si = bare;
    into.given = true;
    return true;
  }
  if (node.kind != Kind::Text && !is_number) {
    const quantity::Measure measure = measure_of_field(field);
    tell_form(node.place(), "expected " + std::string(quantity::in_words(measure)) + " such as " +
                                quoted(quantity::example_of(measure)) + ", found " +
                                base::in_words(node.kind));
    return false;
  }
  const auto read = quantity::read_amount(is_number ? number : node.text, measure_of_field(field),
                                          form_of(field));
  if (!read) {
    for (const base::Problem& problem : read.problems()) {
      const base::Place& inside = problem.place;
      tell_form(node.place_inside(inside.column - 1, inside.length), problem.text, problem.remedy);
    }
    return false;
  }
  into.nominal_si = read.value().nominal_si;
  into.low_si = read.value().low_si;
  into.high_si = read.value().high_si;
  into.given = true;
  return true;
}

void FieldReader::check_size(const TomlNode& node, const std::string& key, const AmountField& field,
                             const quantity::Amount& amount) {
  const quantity::Measure measure = measure_of_field(field);
  // An end that rounding alone carries over a limit is still within it.
  const double slack = 1e-12 * std::max(std::abs(field.lowest_si), std::abs(field.highest_si));
  const bool is_low = amount.low_si < field.lowest_si - slack;
  const bool is_high = amount.high_si > field.highest_si + slack;
  if (!is_low && !is_high) return;
  const bool nominal_fits =
      amount.nominal_si >= field.lowest_si && amount.nominal_si <= field.highest_si;
  const std::string found =
      nominal_fits ? quoted(key) + " may reach " +
                         quantity::show_si(is_low ? amount.low_si : amount.high_si, measure)
                   : quoted(key) + " is " + quantity::show_si(amount.nominal_si, measure);
  tell_sense(node.place(), found + "; expected " +
                               quantity::show_range(field.lowest_si, field.highest_si, measure));
}

void FieldReader::read_what(const TomlNode& node, const Field& field, const CountField& what,
                            Described& into) {
  const std::string expected =
      "a whole number from " + std::to_string(what.lowest) + " to " + std::to_string(what.highest);
  if (node.kind != Kind::Integer) {
    const bool is_digits = node.kind == Kind::Text && !node.text.empty() &&
                           node.text.find_first_not_of("0123456789") == std::string::npos;
    tell_form(
        node.place(),
        quoted(field.key) + ": expected " + expected + ", found " + base::in_words(node.kind),
        is_digits ? "Write it without quotes: " + quoted(field.key + " = " + node.text) + "." : "");
    return;
  }
  if (node.integer < what.lowest || node.integer > what.highest) {
    tell_form(node.place(),
              quoted(field.key) + " is " + std::to_string(node.integer) + "; expected " + expected);
    return;
  }
  what.count(into) = static_cast<int>(node.integer);
}

void FieldReader::read_what(const TomlNode& node, const Field&, const ChoiceField& what,
                            Described& into) {
  const int index = read_word(node, {what.words.begin(), what.words.end()});
  if (index >= 0) what.choose(into, static_cast<std::size_t>(index));
}

void FieldReader::read_what(const TomlNode& node, const Field& field, const FlagField& what,
                            Described& into) {
  if (node.kind != Kind::Boolean) {
    tell_form(node.place(),
              quoted(field.key) + ": expected true or false, found " + base::in_words(node.kind),
              node.kind == Kind::Text ? "Write it without quotes." : "");
    return;
  }
  what.flag(into) = node.boolean;
}

void FieldReader::read_what(const TomlNode& node, const Field& field, const TextField& what,
                            Described& into) {
  const std::string* text = read_text(node, "text for " + quoted(field.key));
  if (text != nullptr) what.text(into) = *text;
}

void FieldReader::read_what(const TomlNode& node, const Field&, const RecordField& what,
                            Described& into) {
  if (node.kind != Kind::Text || what.shelf.empty()) {
    read(node, what.record(into), what.shelf);
  } else if (const TomlNode* row = find_from(node, what.shelf)) {
    read_row(*row, what.record(into));
  }
}

void FieldReader::read_what(const TomlNode& node, const Field& field, const RecordsField& what,
                            Described& into) {
  if (node.kind != Kind::Array) {
    tell_form(node.place(), quoted(field.key) + ": expected a list of tables, found " +
                                base::in_words(node.kind));
    return;
  }
  if (node.items.size() < what.least || node.items.size() > what.most) {
    tell_form(node.place(), quoted(field.key) + " has " + std::to_string(node.items.size()) +
                                " entries; expected " + std::to_string(what.least) + " to " +
                                std::to_string(what.most));
    return;
  }
  for (const TomlNode& item : node.items) read(item, what.append(into), "");
}

}  // namespace tideover::part
