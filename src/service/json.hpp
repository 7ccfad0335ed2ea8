/// JSON as a value: what verbs answer with, and what a request for them may be read from.
/// Source: RFC 8259.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/result.hpp"

namespace tideover::service {

/// Objects keep the order in which they were filled. A number that is not finite is written as
/// null: JSON has no other word for it.
class Json {
 public:
  using List = std::vector<Json>;
  using Object = std::vector<std::pair<std::string, Json>>;

  Json() = default;
  Json(bool flag) : held_(flag) {}
  Json(double number) : held_(number) {}
  Json(long number) : held_(number) {}
  Json(int number) : held_(long{number}) {}
  Json(std::string text) : held_(std::move(text)) {}
  Json(std::string_view text) : held_(std::string(text)) {}
  Json(const char* text) : held_(std::string(text)) {}
  Json(List items) : held_(std::move(items)) {}
  Json(Object entries) : held_(std::move(entries)) {}

  using Held = std::variant<std::monostate, bool, long, double, std::string, List, Object>;
  [[nodiscard]] const Held& held() const { return held_; }

  /// The entry of an object, or null if there is none or this is no object.
  [[nodiscard]] const Json* find(std::string_view key) const;
  [[nodiscard]] const List* list() const { return std::get_if<List>(&held_); }
  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&held_); }
  /// A whole number counts too.
  [[nodiscard]] std::optional<double> number() const;

 private:
  Held held_;
};

/// On one line, or indented by two blanks for people. Ends without a line end.
enum class Layout { OneLine, Indented };
[[nodiscard]] std::string write_json(const Json& json, Layout layout);

/// At most 64 deep; the problem's place is line and column in the text.
[[nodiscard]] base::Result<Json> read_json(std::string_view text);

}  // namespace tideover::service
