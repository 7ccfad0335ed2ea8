#include "server/page_request.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "service/json.hpp"

namespace tideover::server {

using build::Edit;
using service::Json;

namespace {

constexpr std::size_t most_edits = 512;

/// Looks at the entries of an object one by one and collects what is wrong with them.
class Fields {
 public:
  Fields(const Json& json, std::string_view what, std::vector<std::string> known,
         base::Problems& problems)
      : object_(std::get_if<Json::Object>(&json.held())), problems_(problems) {
    if (object_ == nullptr) {
      tell(fmt::format("{} is no JSON object", what));
      return;
    }
    for (const auto& [key, value] : *object_) {
      if (std::ranges::find(known, key) != known.end()) continue;
      tell(fmt::format("{} has no `{}`", what, key),
           "There is " + base::quoted_list(known, "and") + ".");
    }
  }

  [[nodiscard]] const Json* find(std::string_view key) const {
    if (object_ == nullptr) return nullptr;
    const auto at = std::ranges::find(*object_, key, &Json::Object::value_type::first);
    return at == object_->end() ? nullptr : &at->second;
  }

  /// Empty, and told, where there is none.
  std::string text(std::string_view key) {
    const Json* const value = find(key);
    if (value != nullptr && value->text() != nullptr) return *value->text();
    tell(fmt::format("`{}` is missing or no text", key));
    return {};
  }
  std::optional<std::string> text_if_any(std::string_view key) {
    const Json* const value = find(key);
    if (value == nullptr || std::holds_alternative<std::monostate>(value->held())) return {};
    return text(key);
  }

  void tell(std::string words, std::string remedy = {}) {
    problems_.push_back({{}, std::move(words), std::move(remedy)});
  }

 private:
  const Json::Object* object_;
  base::Problems& problems_;
};

/// A value as a person would type it, whether JSON has it as text, number or yes and no.
std::optional<std::string> typed(const Json& json) {
  if (json.text() != nullptr) return *json.text();
  if (const auto* flag = std::get_if<bool>(&json.held())) return *flag ? "true" : "false";
  if (const auto* whole = std::get_if<long>(&json.held())) return std::to_string(*whole);
  if (const auto number = json.number()) return base::number_text(*number);
  return std::nullopt;
}

std::string value_in(Fields& fields) {
  const Json* const json = fields.find("value");
  const auto value = json == nullptr ? std::nullopt : typed(*json);
  if (!value) fields.tell("`value` is missing or no single value");
  return value.value_or("");
}

std::vector<std::pair<std::string, std::string>> keys_in(Fields& fields) {
  const Json* const json = fields.find("keys");
  const auto* const object = json == nullptr ? nullptr : std::get_if<Json::Object>(&json->held());
  std::vector<std::pair<std::string, std::string>> keys;
  if (object == nullptr) {
    fields.tell("`keys` is missing or no object");
    return keys;
  }
  for (const auto& [key, value] : *object) {
    const auto text = typed(value);
    if (!text) fields.tell(fmt::format("`{}` is no single value", key));
    keys.emplace_back(key, text.value_or(""));
  }
  return keys;
}

Edit read_edit(const Json& json, base::Problems& problems) {
  using Deed = Edit::Deed;
  static const std::vector<std::string> deeds{"set",    "unset",  "add", "remove",
                                              "rename", "append", "drop"};
  Fields fields(json, "an edit", {"op", "path", "value", "keys", "to"}, problems);
  Edit edit{.path = fields.text("path")};
  const std::string name = fields.text("op");
  const auto at = std::ranges::find(deeds, name);
  if (at == deeds.end()) {
    fields.tell(fmt::format("there is no edit `{}`", name),
                "There is " + base::quoted_list(deeds, "and") + ".");
    return edit;
  }
  edit.deed = static_cast<Deed>(at - deeds.begin());
  if (edit.deed == Deed::Set) edit.value = value_in(fields);
  if (edit.deed == Deed::Rename) edit.to = fields.text("to");
  if (edit.deed == Deed::Add || edit.deed == Deed::Append) edit.keys = keys_in(fields);
  return edit;
}

std::vector<std::string> texts_in(const Json& list_or_one, const std::string& name,
                                  Fields& fields) {
  std::vector<std::string> texts;
  const auto take = [&](const Json& json) {
    if (auto text = typed(json)) {
      texts.push_back(std::move(*text));
    } else {
      fields.tell(fmt::format("`{}` holds something that is no text", name));
    }
  };
  if (const Json::List* const list = list_or_one.list()) {
    for (const Json& item : *list) take(item);
  } else {
    take(list_or_one);
  }
  return texts;
}

void read_option(const service::Verb& verb, const std::string& name, const Json& json,
                 service::Request& request, Fields& fields) {
  const auto option = std::ranges::find(verb.options, name, &service::Option::name);
  if (option == verb.options.end()) {
    return fields.tell(fmt::format("`{}` has no option `{}`", verb.name, name));
  }
  if (option->takes == "FILE") {
    return fields.tell(fmt::format("`{}` names a file: only the command line takes it", name));
  }
  std::vector<std::string> texts = texts_in(json, name, fields);
  if (!option->takes.empty()) {
    request.options[name] = std::move(texts);
  } else if (texts != std::vector<std::string>{"false"}) {
    request.options[name] = {"yes"};
  }
}

void read_options(const service::Verb& verb, service::Request& request, Fields& fields) {
  const Json* const json = fields.find("options");
  if (json == nullptr) return;
  const auto* const object = std::get_if<Json::Object>(&json->held());
  if (object == nullptr) return fields.tell("`options` is no object");
  for (const auto& [name, value] : *object) read_option(verb, name, value, request, fields);
}

template <class Request>
base::Result<Request> if_sound(Request request, base::Problems problems) {
  if (!problems.empty()) return problems;
  return request;
}

}  // namespace

base::Result<SaveRequest> read_save_request(std::string_view body) {
  const auto json = service::read_json(body);
  if (!json) return json.problems();
  base::Problems problems;
  Fields fields(json.value(), "the request", {"text", "base"}, problems);
  SaveRequest request{.text = fields.text("text"), .base = fields.text_if_any("base")};
  return if_sound(std::move(request), std::move(problems));
}

base::Result<EditRequest> read_edit_request(std::string_view body) {
  const auto json = service::read_json(body);
  if (!json) return json.problems();
  base::Problems problems;
  Fields fields(json.value(), "the request", {"text", "edits"}, problems);
  EditRequest request{.text = fields.text("text"), .edits = {}};
  const Json* const edits = fields.find("edits");
  if (edits == nullptr || edits->list() == nullptr) {
    fields.tell("`edits` is missing or no list");
  } else if (edits->list()->size() > most_edits) {
    fields.tell(fmt::format("there are more than {} edits", most_edits));
  } else {
    for (const Json& edit : *edits->list()) request.edits.push_back(read_edit(edit, problems));
  }
  return if_sound(std::move(request), std::move(problems));
}

base::Result<service::Request> read_ask_request(std::string_view body) {
  const auto json = service::read_json(body);
  if (!json) return json.problems();
  base::Problems problems;
  Fields fields(json.value(), "the request", {"verb", "text", "set", "word", "options"}, problems);
  service::Request request{.verb = fields.text("verb")};
  request.text = fields.text_if_any("text");
  request.word = fields.text_if_any("word").value_or("");
  if (const Json* const set = fields.find("set")) request.set = texts_in(*set, "set", fields);
  const service::Verb* const verb = service::find_verb(request.verb);
  if (verb != nullptr) {
    read_options(*verb, request, fields);
  } else if (problems.empty()) {
    base::NoProgress nobody;
    problems = service::answer(request, nobody).problems;  // names the nearest verb
  }
  return if_sound(std::move(request), std::move(problems));
}

}  // namespace tideover::server
