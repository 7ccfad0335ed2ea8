#include "service/json.hpp"

#include <cmath>
#include <cstdint>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace tideover::service {

namespace {

using Theirs = nlohmann::ordered_json;

constexpr int deepest = 64;

Theirs theirs_of(const Json& json) {
  struct Turn {
    Theirs operator()(std::monostate) const { return nullptr; }
    Theirs operator()(bool flag) const { return flag; }
    Theirs operator()(long number) const { return number; }
    Theirs operator()(double number) const {
      if (!std::isfinite(number)) return nullptr;
      return number;
    }
    Theirs operator()(const std::string& text) const { return text; }
    Theirs operator()(const Json::List& items) const {
      Theirs list = Theirs::array();
      for (const Json& item : items) list.push_back(theirs_of(item));
      return list;
    }
    Theirs operator()(const Json::Object& entries) const {
      Theirs object = Theirs::object();
      for (const auto& [key, value] : entries) object[key] = theirs_of(value);
      return object;
    }
  };
  return std::visit(Turn{}, json.held());
}

Json ours_of(const Theirs& theirs) {
  if (theirs.is_boolean()) return theirs.get<bool>();
  if (theirs.is_number_integer() && !theirs.is_number_unsigned()) return theirs.get<long>();
  if (theirs.is_number_unsigned() && theirs.get<std::uint64_t>() <= INT64_MAX) {
    return theirs.get<long>();
  }
  if (theirs.is_number()) return theirs.get<double>();
  if (theirs.is_string()) return theirs.get<std::string>();
  if (theirs.is_array()) {
    Json::List items;
    for (const Theirs& item : theirs) items.push_back(ours_of(item));
    return items;
  }
  if (!theirs.is_object()) return {};
  Json::Object entries;
  for (const auto& [key, value] : theirs.items()) entries.emplace_back(key, ours_of(value));
  return entries;
}

/// Nesting of brackets outside of texts: looked at before the parser, which would recurse.
int depth_of(std::string_view text) {
  int depth = 0;
  int most = 0;
  bool inside_text = false;
  for (std::size_t k = 0; k < text.size(); ++k) {
    if (inside_text) {
      if (text[k] == '\\')
        ++k;
      else if (text[k] == '"')
        inside_text = false;
      continue;
    }
    if (text[k] == '"') inside_text = true;
    if (text[k] == '[' || text[k] == '{') most = std::max(most, ++depth);
    if (text[k] == ']' || text[k] == '}') --depth;
  }
  return most;
}

base::Problem problem_at(std::string_view text, std::size_t byte, std::string what) {
  base::Problem problem{{}, std::move(what), "JSON as RFC 8259 has it was expected."};
  problem.place.line = 1;
  problem.place.column = 1;
  for (std::size_t k = 0; k < std::min(byte, text.size()); ++k) {
    ++problem.place.column;
    if (text[k] != '\n') continue;
    ++problem.place.line;
    problem.place.column = 1;
  }
  return problem;
}

}  // namespace

const Json* Json::find(std::string_view key) const {
  const auto* const entries = std::get_if<Object>(&held_);
  if (entries == nullptr) return nullptr;
  for (const auto& [name, value] : *entries) {
    if (name == key) return &value;
  }
  return nullptr;
}

std::optional<double> Json::number() const {
  if (const auto* const whole = std::get_if<long>(&held_)) return static_cast<double>(*whole);
  if (const auto* const real = std::get_if<double>(&held_)) return *real;
  return std::nullopt;
}

std::string write_json(const Json& json, Layout layout) {
  // Text that is not UTF-8 gets U+FFFD where it is broken.
  return theirs_of(json).dump(layout == Layout::Indented ? 2 : -1, ' ', false,
                              Theirs::error_handler_t::replace);
}

base::Result<Json> read_json(std::string_view text) {
  if (depth_of(text) > deepest) {
    return problem_at(text, 0, fmt::format("brackets are nested deeper than {}", deepest));
  }
  try {
    return ours_of(Theirs::parse(text));
  } catch (const Theirs::parse_error& error) {
    return problem_at(text, error.byte == 0 ? 0 : error.byte - 1, "this is not JSON");
  } catch (const Theirs::exception&) {
    return problem_at(text, 0, "a number is too large");
  }
}

}  // namespace tideover::service
