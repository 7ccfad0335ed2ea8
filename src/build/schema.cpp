#include "build/schema.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "build/build.hpp"
#include "build/sheet_reading.hpp"
#include "build/sheet_words.hpp"
#include "part/kind.hpp"
#include "part/wire/wire.hpp"
#include "quantity/text.hpp"

namespace tideover::build {
namespace {

using Json = nlohmann::ordered_json;

Json reference(const std::string& name) { return {{"$ref", "#/definitions/" + name}}; }

Json text_schema() { return {{"type", "string"}, {"maxLength", part::longest_text}}; }

Json word_schema(const std::vector<std::string>& words) { return {{"enum", words}}; }

Json closed_table(Json properties) {
  return {
      {"type", "object"}, {"properties", std::move(properties)}, {"additionalProperties", false}};
}

/// Tables by name, such as `[parts.NAME]`.
Json named_tables(Json each, std::size_t most) {
  Json schema{{"type", "object"},
              {"propertyNames", {{"pattern", name_pattern}}},
              {"additionalProperties", std::move(each)}};
  if (most > 0) schema["maxProperties"] = most;
  return schema;
}

class Maker {
 public:
  explicit Maker(const part::Stock& shelf) : shelf_(shelf) {}

  Json whole() {
    Json root{
        {"$schema", "http://json-schema.org/draft-07/schema#"},
        {"title", "Tideover build sheet"},
        {"description", "Parts with terminals, leads between them, and what the supply is for."},
        {"type", "object"},
        {"required", {"needs", "parts"}},
        {"additionalProperties", false}};
    const auto needs = std::make_unique<Needs>();
    root["properties"] = {{"sheet", closed_table({{"title", text_schema()}})},
                          {"needs", table_of(*needs, "", {})},
                          {"parts", named_tables(part_schema(), most_parts)},
                          {"leads", named_tables(lead_schema(), most_leads)},
                          {"joins", named_tables(join_schema(), 0)},
                          {"timelines", named_tables(timeline_schema(), 0)},
                          {"start", start_schema()}};
    root["definitions"] = std::move(definitions_);
    return root;
  }

 private:
  // --- values ------------------------------------------------------------------------------------

  /// One definition a measure: the patterns are long.
  Json amount_schema(const part::AmountField& field) {
    const quantity::Measure measure = part::measure_of_field(field);
    const auto form = field.is_range ? quantity::Form::Range : quantity::Form::Value;
    std::string name(quantity::in_words(measure));
    name.erase(0, name.find(' ') + 1);                   // the article
    name.erase(std::min(name.find(" ("), name.size()));  // and what it is usually written as
    for (char& letter : name) letter = letter == ' ' ? '_' : letter;
    if (!definitions_.contains(name)) {
      Json text{{"type", "string"}, {"pattern", quantity::text_pattern(measure, form)}};
      Json bare = part::is_factor(field) ? Json{{"anyOf", {text, {{"type", "number"}}}}} : text;
      Json table = closed_table({{"value", bare},
                                 {"origin", word_schema(part::origin_words())},
                                 {"source", text_schema()},
                                 {"meter", text_schema()}});
      table["required"] = {"value"};
      Json choices = Json::array({text, table});
      if (part::is_factor(field)) choices.push_back({{"type", "number"}});
      definitions_[name] = {
          {"description", "Such as " + std::string(quantity::example_of(measure))},
          {"anyOf", choices}};
    }
    return reference(name);
  }

  Json what_schema(const part::AmountField& what, part::Described&) { return amount_schema(what); }
  Json what_schema(const part::CountField& what, part::Described&) {
    return {{"type", "integer"}, {"minimum", what.lowest}, {"maximum", what.highest}};
  }
  Json what_schema(const part::ChoiceField& what, part::Described&) {
    return word_schema({what.words.begin(), what.words.end()});
  }
  Json what_schema(const part::FlagField&, part::Described&) { return {{"type", "boolean"}}; }
  Json what_schema(const part::TextField&, part::Described&) { return text_schema(); }
  Json what_schema(const part::RecordField& what, part::Described& owner) {
    Json table = table_of(what.record(owner), what.shelf, {});
    if (what.shelf.empty()) return table;
    return {{"anyOf", {from_schema(what.shelf), table}}};
  }
  Json what_schema(const part::RecordsField& what, part::Described& owner) {
    return {{"type", "array"},
            {"minItems", what.least},
            {"maxItems", what.most},
            {"items", table_of(what.append(owner), "", {})}};
  }

  Json field_schema(const part::Field& field, part::Described& owner) {
    Json schema =
        std::visit([&](const auto& what) { return what_schema(what, owner); }, field.what);
    std::string means = field.means;
    if (!field.default_source.empty()) means += ". Left out: " + field.default_source;
    // Beside a $ref nothing else counts in draft-07, so the words go around it.
    if (schema.contains("$ref")) return {{"description", means}, {"allOf", Json::array({schema})}};
    schema["description"] = means;
    return schema;
  }

  // --- tables ------------------------------------------------------------------------------------

  Json from_schema(const std::string& list) const {
    std::vector<std::string> words;
    for (const std::string& name : shelf_.names(list)) {
      words.push_back(std::string(part::shelf_prefix) + name);
    }
    if (words.empty()) return {{"not", Json::object()}};
    return word_schema(words);
  }

  /// `others` are properties beside the described ones.
  Json table_of(part::Described& described, const std::string& list, Json others) {
    const part::Description& description = described.description();
    Json properties = others.is_object() ? std::move(others) : Json::object();
    std::vector<std::string> required;
    for (const part::Field& field : description.fields) {
      properties[field.key] = field_schema(field, described);
      if (field.is_required) required.push_back(field.key);
    }
    if (!list.empty()) properties[std::string(part::from_key)] = from_schema(list);
    Json table = closed_table(std::move(properties));
    table["description"] = description.means;
    if (required.empty()) return table;
    if (list.empty()) {
      table["required"] = required;
    } else {
      table["anyOf"] = {{{"required", {part::from_key}}}, {{"required", required}}};
    }
    return table;
  }

  Json part_schema() {
    std::vector<std::string> names;
    Json cases = Json::array();
    for (const part::Kind& kind : part::kinds()) {
      const std::string& name = kind.description->name;
      names.push_back(name);
      const std::unique_ptr<part::Part> part = kind.make();
      Json table = table_of(*part, name, {{"kind", {{"const", name}}}});
      definitions_[name] = std::move(table);
      cases.push_back(
          {{"if", {{"properties", {{"kind", {{"const", name}}}}}, {"required", {"kind"}}}},
           {"then", reference(name)}});
    }
    return {{"type", "object"},
            {"required", {"kind"}},
            {"properties", {{"kind", word_schema(names)}}},
            {"allOf", cases}};
  }

  static Json terminal_schema() {
    Json schema = text_schema();
    schema["pattern"] = terminal_pattern;
    return schema;
  }

  Json lead_schema() {
    part::Wire wire;
    Json ends{{"type", "array"}, {"minItems", 2}, {"maxItems", 2}, {"items", terminal_schema()}};
    Json table = table_of(wire, "wire", {{"between", ends}});
    table["required"] = {"between"};
    return table;
  }

  static Json join_schema() {
    Json list{{"type", "array"},
              {"minItems", 2},
              {"maxItems", most_joined},
              {"items", terminal_schema()}};
    Json table = closed_table({{"terminals", list}});
    table["required"] = {"terminals"};
    return table;
  }

  Json stretch_schema() {
    const Json mains = word_schema(mains_words());
    const Json position{{"type", "integer"}, {"minimum", 0}, {"maximum", highest_position}};
    Json table = closed_table(
        {{"mains", {{"anyOf", {mains, {{"type", "object"}, {"additionalProperties", mains}}}}}},
         {"switches", {{"type", "object"}, {"additionalProperties", position}}},
         {"profiles", {{"type", "object"}, {"additionalProperties", text_schema()}}},
         {"ambient", amount_schema(stretch_ambient())},
         {"lasts", amount_schema(stretch_length())},
         {"until", word_schema(until_words())}});
    table["anyOf"] = {{{"required", {"lasts"}}}, {{"required", {"until"}}}};
    return table;
  }

  Json timeline_schema() {
    Json stretches{{"type", "array"},
                   {"minItems", 1},
                   {"maxItems", most_stretches},
                   {"items", stretch_schema()}};
    Json repeats{{"type", "integer"}, {"minimum", 1}, {"maximum", most_repeats}};
    Json table = closed_table({{"stretch", stretches}, {"repeats", repeats}});
    table["required"] = {"stretch"};
    return table;
  }

  Json start_schema() {
    Json part = closed_table({{"charge", amount_schema(start_charge())},
                              {"temperature", amount_schema(start_temperature())}});
    return {{"type", "object"},
            {"properties", {{"settled", {{"type", "boolean"}}}}},
            {"additionalProperties", part}};
  }

  const part::Stock& shelf_;
  Json definitions_ = Json::object();
};

}  // namespace

std::string sheet_schema(const part::Stock& shelf) { return Maker(shelf).whole().dump(2) + "\n"; }

}  // namespace tideover::build
