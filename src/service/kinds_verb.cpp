#include "service/kinds_verb.hpp"

#include <algorithm>
#include <memory>

#include <fmt/format.h>

#include "base/text.hpp"
#include "drawing/svg.hpp"
#include "part/kind.hpp"
#include "part/read_fields.hpp"
#include "part/symbol_sheet.hpp"
#include "quantity/show.hpp"

namespace tideover::service {

namespace {

using part::Described;
using part::Field;

struct TerminalRow {
  std::string name;
  std::string means;
  bool must_be_wired = true;
  std::string grows_with;  ///< the count that brings further ones of its like; empty: none
};

/// Terminals of a part at its defaults, and the first ones that its counts add.
std::vector<TerminalRow> terminals_of(const part::Kind& kind) {
  const auto plain = kind.make();
  plain->name = "it";
  std::vector<TerminalRow> rows;
  for (const part::Terminal& one : plain->terminals()) {
    rows.push_back({one.name, one.means, one.must_be_wired, ""});
  }
  for (const Field& field : kind.description->fields) {
    const auto* const count = std::get_if<part::CountField>(&field.what);
    if (count == nullptr) continue;
    const auto more = kind.make();
    more->name = "it";
    int& number = count->count(*more);
    if (number >= count->highest) continue;
    ++number;
    for (const part::Terminal& one : more->terminals()) {
      const bool is_known =
          std::ranges::any_of(rows, [&](const TerminalRow& row) { return row.name == one.name; });
      if (!is_known) rows.push_back({one.name, one.means, one.must_be_wired, field.key});
    }
  }
  return rows;
}

std::string terminals_in_a_row(const std::vector<TerminalRow>& rows) {
  std::string text;
  for (const TerminalRow& row : rows) {
    if (!text.empty()) text += ", ";
    text += row.must_be_wired ? row.name : "(" + row.name + ")";
    if (!row.grows_with.empty()) text += " ... by `" + row.grows_with + "`";
  }
  return text.empty() ? "none" : text;
}

std::vector<std::string> required_of(const part::Description& description) {
  std::vector<std::string> keys;
  for (const Field& field : description.fields) {
    if (field.is_required) keys.push_back(field.key);
  }
  return keys;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

/// What may stand behind a key, and what is taken where it is left out.
struct FieldWords {
  std::string takes;
  std::string left_out;
};

FieldWords words_of(const Field& field, Described& owner) {
  if (const auto* const amount = std::get_if<part::AmountField>(&field.what)) {
    const quantity::Measure measure = part::measure_of_field(*amount);
    const quantity::Amount& held = amount->amount(owner);
    const bool is_said = held.nominal_si != 0.0 || held.high_si != 0.0;
    return {std::string(quantity::in_words(measure)) + (amount->is_range ? ", from and to" : ""),
            !is_said           ? ""
            : amount->is_range ? quantity::show_range(held.low_si, held.high_si, measure)
                               : quantity::show_amount(held, measure, 3)};
  }
  if (const auto* const count = std::get_if<part::CountField>(&field.what)) {
    return {fmt::format("a whole number, {} to {}", count->lowest, count->highest),
            std::to_string(count->count(owner))};
  }
  if (const auto* const choice = std::get_if<part::ChoiceField>(&field.what)) {
    const std::vector<std::string> words(choice->words.begin(), choice->words.end());
    return {base::quoted_list(words, "or"), words[choice->chosen(owner)]};
  }
  if (const auto* const flag = std::get_if<part::FlagField>(&field.what)) {
    return {"`true` or `false`", flag->flag(owner) ? "true" : "false"};
  }
  if (const auto* const text = std::get_if<part::TextField>(&field.what)) {
    return {text->names_a_part ? "the name of a part" : "text", ""};
  }
  if (const auto* const record = std::get_if<part::RecordField>(&field.what)) {
    return {record->shelf.empty()
                ? "a table"
                : "`shelf:` and a row of `tideover shelf " + record->shelf + "`, or a table",
            ""};
  }
  return {"a list of tables", ""};
}

void add_key(const Field& field, Described& owner, std::vector<Line>& lines) {
  const FieldWords words = words_of(field, owner);
  lines.push_back({field.is_required ? Tone::Strong : Tone::Plain,
                   fmt::format("  {}: {}", field.key, words.takes)});
  std::string text = field.means;
  if (field.is_required) {
    text += "; must be said";
  } else if (!words.left_out.empty() || !field.default_source.empty()) {
    text += "; left out: " + words.left_out;
    if (!words.left_out.empty() && !field.default_source.empty()) text += ", ";
    text += field.default_source;
  }
  lines.push_back({Tone::Quiet, "      " + text});
}

Json::Object kind_json(const part::Kind& kind) {
  Json::List terminals;
  for (const TerminalRow& row : terminals_of(kind)) {
    terminals.push_back(Json::Object{{"name", row.name},
                                     {"means", row.means},
                                     {"must_be_wired", row.must_be_wired},
                                     {"grows_with", row.grows_with}});
  }
  const auto part = kind.make();
  Json::List keys;
  for (const Field& field : kind.description->fields) {
    const FieldWords words = words_of(field, *part);
    keys.push_back(Json::Object{{"key", field.key},
                                {"takes", words.takes},
                                {"means", field.means},
                                {"must_be_said", field.is_required},
                                {"left_out", words.left_out},
                                {"source", field.default_source}});
  }
  return {{"kind", kind.description->name},
          {"means", kind.description->means},
          {"terminals", std::move(terminals)},
          {"keys", std::move(keys)}};
}

Reply all_kinds() {
  Reply reply;
  Json::List list;
  for (const part::Kind& kind : part::kinds()) {
    const std::vector<std::string> required = required_of(*kind.description);
    reply.lines.push_back({Tone::Strong, kind.description->name + ": " + kind.description->means});
    reply.lines.push_back(
        {Tone::Plain, "    terminals: " + terminals_in_a_row(terminals_of(kind))});
    reply.lines.push_back(
        {Tone::Plain,
         "    must say: " + (required.empty() ? std::string("nothing more") : joined(required))});
    list.push_back(kind_json(kind));
  }
  reply.lines.push_back({});
  reply.lines.push_back({Tone::Quiet,
                         "Terminals in brackets may stay open. `tideover kinds KIND` tells every "
                         "key of one, `tideover shelf KIND` the rows it may be taken `from`."});
  reply.json = Json::Object{{"tideover", version()}, {"verb", "kinds"}, {"kinds", std::move(list)}};
  return reply;
}

Reply one_kind(const part::Kind& kind) {
  Reply reply;
  reply.lines.push_back({Tone::Strong, kind.description->name + ": " + kind.description->means});
  reply.lines.push_back({Tone::Plain, "Terminals"});
  for (const TerminalRow& row : terminals_of(kind)) {
    std::string text = fmt::format("  {}: {}", row.name, row.means);
    if (!row.must_be_wired) text += "; may stay open";
    if (!row.grows_with.empty()) text += "; there are more by `" + row.grows_with + "`";
    reply.lines.push_back({Tone::Plain, text});
  }
  reply.lines.push_back({Tone::Plain, "Keys"});
  const auto part = kind.make();
  for (const Field& field : kind.description->fields) add_key(field, *part, reply.lines);
  Json::Object json{{"tideover", version()}, {"verb", "kinds"}};
  json.emplace_back("kinds", Json::List{Json(kind_json(kind))});
  reply.json = std::move(json);
  return reply;
}

constexpr std::string_view symbols_word = "symbols";

Reply symbols() {
  Reply reply;
  reply.document = drawing::svg(part::symbol_sheet()) + "\n";
  return reply;
}

Reply kinds(const Request& request, base::Progress&) {
  if (request.word.empty()) return all_kinds();
  if (request.word == symbols_word) return symbols();
  if (const part::Kind* const kind = part::find_kind(request.word)) return one_kind(*kind);
  std::vector<std::string> names{std::string(symbols_word)};
  for (const part::Kind& kind : part::kinds()) names.push_back(kind.description->name);
  return no_such_word("kind of part", request.word, names);
}

}  // namespace

Verb kinds_verb() {
  return {
      "kinds",
      "list the kinds of parts, their terminals and keys",
      "Lists what a part of a sheet may be: its terminals, and the keys that must be said. With "
      "a KIND, every key of it with what it takes and what is taken where it is left out. Made "
      "from the same descriptions as the reader. With `symbols`, their drawing symbols as SVG.",
      false,
      kinds,
      "KIND",
      "one kind, such as relay, or symbols"};
}

}  // namespace tideover::service
