#include "build/field_values.hpp"

#include <algorithm>
#include <optional>

#include "base/text.hpp"
#include "part/wire/conductor.hpp"
#include "quantity/text.hpp"

namespace tideover::build {

namespace {

using base::TomlNode;
using part::AmountField;
using part::Field;
using Takes = SheetValue::Takes;
using Stands = SheetValue::Stands;

/// The node that holds the value itself: `{ value = "3 Ah", origin = "measured" }` holds it inside.
const TomlNode* bare(const TomlNode* node) {
  if (node == nullptr || node->kind != TomlNode::Kind::Table) return node;
  const TomlNode* const inside = node->find("value");
  return inside != nullptr ? inside : node;
}

std::string text_of(const TomlNode& node) {
  switch (node.kind) {
    case TomlNode::Kind::Text:
    case TomlNode::Kind::Date: return node.text;
    case TomlNode::Kind::Integer: return std::to_string(node.integer);
    case TomlNode::Kind::Real: return base::number_text(node.real);
    case TomlNode::Kind::Boolean: return node.boolean ? "true" : "false";
    case TomlNode::Kind::Table:
    case TomlNode::Kind::Array: break;
  }
  return {};
}

quantity::Form form_of(const AmountField& field) {
  return field.is_range ? quantity::Form::Range : quantity::Form::Value;
}

/// Whether the text still says what the build holds.
bool says(const std::string& text, const quantity::Amount& held, const AmountField& field) {
  const auto read = quantity::read_amount(text, part::measure_of_field(field), form_of(field));
  return read && read.value().nominal_si == held.nominal_si && read.value().low_si == held.low_si &&
         read.value().high_si == held.high_si;
}

std::string exact(const quantity::Amount& held, const AmountField& field) {
  const quantity::Measure measure = part::measure_of_field(field);
  const bool is_said = held.nominal_si != 0.0 || held.high_si != 0.0 || held.given;
  if (!is_said) return {};
  if (!field.is_range) return quantity::show_amount(held, measure, 6);
  return quantity::show_range(held.low_si, held.high_si, measure, 6);
}

void describe_amount(const AmountField& field, SheetValue& value) {
  const quantity::Measure measure = part::measure_of_field(field);
  value.takes = field.is_range ? Takes::Range : Takes::Amount;
  value.least = quantity::show_si(field.lowest_si, measure, 4);
  value.most = quantity::show_si(field.highest_si, measure, 4);
  value.unit = quantity::unit_in(value.text, measure);
  if (field.is_range) return;
  value.tolerance = quantity::tolerance_in(value.text);
  // A sheet leaves hundreds of values out; who wants to change one of those types it.
  if (value.stands == Stands::Default) return;
  value.choices = quantity::choices_around(value.text, measure, field.lowest_si, field.highest_si);
}

quantity::Choices counts_around(int count, int lowest, int highest) {
  constexpr int to_either_side = 20;
  quantity::Choices choices;
  const int first = std::max(lowest, count - to_either_side);
  const int last = std::min(highest, count + to_either_side);
  for (int one = first; one <= last; ++one) {
    if (one == count) choices.at = choices.texts.size();
    choices.texts.push_back(std::to_string(one));
  }
  return choices;
}

/// A conductor comes in the sizes of its standard.
void offer_nominal_sizes(SheetValue& value) {
  if (!value.text.ends_with("mm2")) return;
  std::vector<std::string> sizes;
  for (const part::NominalSize& size : part::nominal_sizes()) {
    sizes.push_back(base::number_text(size.area_mm2) + " mm2");
  }
  value.choices =
      quantity::choices_among(value.text, sizes, quantity::measure_of<quantity::SquareMetre>());
}

/// What every value says of itself, whatever it takes.
SheetValue begun(const std::string& key, const std::string& path, std::string means,
                 const TomlNode* node, int line) {
  SheetValue value;
  value.key = key;
  value.path = path;
  value.means = std::move(means);
  value.line = line;
  if (node == nullptr) return value;
  value.stands = Stands::Sheet;
  value.text = text_of(*bare(node));
  value.line = bare(node)->mark.line;
  return value;
}

void fill(part::Described& thing, const AmountField& what, const Field& field, SheetValue& value) {
  const quantity::Amount& held = what.amount(thing);
  if (value.stands != Stands::Sheet && held.given) value.stands = Stands::Shelf;
  if (value.stands != Stands::Sheet || !says(value.text, held, what)) {
    value.text = exact(held, what);
  }
  if (held.given) value.origin = part::origin_words()[static_cast<std::size_t>(held.origin)];
  value.source = held.given ? held.source : field.default_source;
  describe_amount(what, value);
}

void fill(part::Described& thing, const part::CountField& what, const Field& field,
          SheetValue& value) {
  const int count = what.count(thing);
  value.takes = Takes::Count;
  value.text = std::to_string(count);
  value.least = std::to_string(what.lowest);
  value.most = std::to_string(what.highest);
  value.choices = counts_around(count, what.lowest, what.highest);
  value.source = value.stands == Stands::Sheet ? "" : field.default_source;
}

void fill(part::Described& thing, const part::ChoiceField& what, const Field& field,
          SheetValue& value) {
  value.takes = Takes::Word;
  value.words.assign(what.words.begin(), what.words.end());
  value.text = value.words[what.chosen(thing)];
  value.source = value.stands == Stands::Sheet ? "" : field.default_source;
}

void fill(part::Described& thing, const part::FlagField& what, const Field& field,
          SheetValue& value) {
  value.takes = Takes::Flag;
  value.words = {"true", "false"};
  value.text = what.flag(thing) ? "true" : "false";
  value.source = value.stands == Stands::Sheet ? "" : field.default_source;
}

void fill(part::Described& thing, const part::TextField& what, const Field&, SheetValue& value) {
  value.takes = what.names_a_part ? Takes::PartName : Takes::Text;
  value.text = what.text(thing);
}

/// Tables are told by what they hold.
void fill(part::Described&, const part::RecordField&, const Field&, SheetValue&) {}
void fill(part::Described&, const part::RecordsField&, const Field&, SheetValue&) {}

}  // namespace

SheetValue plain_amount(const std::string& key, const std::string& path, const AmountField& field,
                        const TomlNode* node, std::string means, int line) {
  SheetValue value = begun(key, path, std::move(means), node, line);
  describe_amount(field, value);
  return value;
}

SheetValue plain_word(const std::string& key, const std::string& path,
                      const std::vector<std::string>& words, const TomlNode* node,
                      std::string means, int line) {
  SheetValue value = begun(key, path, std::move(means), node, line);
  value.takes = Takes::Word;
  value.words = words;
  return value;
}

std::vector<std::string> FieldValues::rows(const std::string& list) const {
  std::vector<std::string> words;
  for (const std::string& name : shelf_.names(list)) {
    words.push_back(std::string(part::shelf_prefix) + name);
  }
  return words;
}

void FieldValues::add_from(const Standing& at, std::vector<SheetValue>& all) const {
  if (at.shelf.empty() || shelf_.names(at.shelf).empty()) return;
  const std::string key(part::from_key);
  const TomlNode* const node = at.table == nullptr ? nullptr : at.table->find(key);
  SheetValue value = plain_word(at.key_prefix + key, at.path + "." + key, rows(at.shelf), node,
                                "the row of the shelf that says what is not said here", at.line);
  value.takes = Takes::Row;
  all.push_back(std::move(value));
}

/// `cell = "shelf:..."` names a row in the place of a table.
void FieldValues::add_record(part::Described& thing, const Field& field,
                             const part::RecordField& record, const Standing& at,
                             std::vector<SheetValue>& all) const {
  const TomlNode* const node = at.table == nullptr ? nullptr : at.table->find(field.key);
  const bool is_row = node != nullptr && node->kind == TomlNode::Kind::Text;
  Standing inside{.table = is_row ? nullptr : node,
                  .path = at.path + "." + field.key,
                  .key_prefix = at.key_prefix + field.key + ".",
                  .shelf = is_row ? "" : record.shelf,
                  .line = node == nullptr ? at.line : node->mark.line};
  if (is_row || (node == nullptr && !record.shelf.empty())) {
    SheetValue row = plain_word(at.key_prefix + field.key, inside.path, rows(record.shelf), node,
                                field.means, at.line);
    row.takes = Takes::Row;
    inside.shelf.clear();
    all.push_back(std::move(row));
  }
  add(record.record(thing), inside, all);
}

SheetValue FieldValues::one(part::Described& thing, const Field& field, const Standing& at) const {
  const TomlNode* const node = at.table == nullptr ? nullptr : at.table->find(field.key);
  SheetValue value =
      begun(at.key_prefix + field.key, at.path + "." + field.key, field.means, node, at.line);
  value.is_required = field.is_required;
  std::visit([&](const auto& what) { fill(thing, what, field, value); }, field.what);
  if (value.takes == Takes::PartName) {
    for (const auto& part : build_.parts) value.words.push_back(part->name);
  }
  if (&thing.description() == &part::Wire::describe() && field.key == "size") {
    offer_nominal_sizes(value);
  }
  return value;
}

void FieldValues::add(part::Described& thing, const Standing& at,
                      std::vector<SheetValue>& all) const {
  add_from(at, all);
  for (const Field& field : thing.description().fields) {
    const TomlNode* const node = at.table == nullptr ? nullptr : at.table->find(field.key);
    if (const auto* const record = std::get_if<part::RecordField>(&field.what)) {
      add_record(thing, field, *record, at, all);
    } else if (const auto* const records = std::get_if<part::RecordsField>(&field.what)) {
      std::size_t k = 0;
      for (part::Described* const item : records->all(thing)) {
        const bool is_written = node != nullptr && k < node->items.size();
        const std::string step = field.key + "." + std::to_string(++k);
        add(*item,
            {.table = is_written ? &node->items[k - 1] : nullptr,
             .path = at.path + "." + step,
             .key_prefix = at.key_prefix + step + ".",
             .line = is_written ? node->items[k - 1].mark.line : at.line},
            all);
      }
    } else {
      all.push_back(one(thing, field, at));
    }
  }
}

std::vector<SheetValue> FieldValues::of(part::Described& thing, const Standing& at) const {
  std::vector<SheetValue> all;
  add(thing, at, all);
  return all;
}

}  // namespace tideover::build
