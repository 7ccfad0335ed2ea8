#include <vector>

#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"

namespace tideover::quantity {
namespace {

// Several bytes of UTF-8 stand between brackets in no class: matched as a group they mean the same
// to an engine that sees bytes and to one that sees code points.
constexpr std::string_view blanks = "(?:[ \\t]|\u00A0|\u2009|\u202F)*";
constexpr std::string_view some_blanks = "(?:[ \\t]|\u00A0|\u2009|\u202F)+";
constexpr std::string_view sign = "(?:[+-]|\u2212)?";
constexpr std::string_view minus = "(?:-|\u2212)";
constexpr std::string_view plain_number = "(?:[0-9]+(?:\\.[0-9]*)?|\\.[0-9]+)(?:[eE][+-]?[0-9]+)?";

std::string escaped(std::string_view word) {
  std::string text;
  for (const char c : word) {
    if (std::string_view(".^$*+?()[]{}|\\").find(c) != std::string_view::npos) text += '\\';
    text += c;
  }
  return text;
}

std::string any_of(const std::vector<std::string>& words) {
  std::string text = "(?:";
  for (const std::string& word : words)
    text.append(text.size() > 3 ? "|" : "").append(escaped(word));
  return text + ")";
}

std::string join(std::initializer_list<std::string_view> pieces) {
  std::string text;
  for (const std::string_view piece : pieces) text += piece;
  return text;
}

std::string quantity_pattern(const Measure& measure) {
  std::vector<std::string> words = unit_words(measure);
  const bool is_area = measure == measure_of<SquareMetre>();
  if (is_area) words.emplace_back(gauge_word);
  const std::string units = any_of(words) + (measure.is_factor ? "?" : "");
  std::string text = join({sign, plain_number, blanks, units});
  if (measure == measure_of<Second>()) {
    text += join({"(?:", some_blanks, plain_number, blanks, units, ")*"});
  }
  return text;
}

std::string tolerance_pattern(const Measure& measure) {
  std::vector<std::string> words = unit_words(measure);
  const bool is_temperature = measure == measure_of<Temperature>();
  if (is_temperature) {
    for (std::string& word : unit_words(measure_of<Kelvin>())) words.push_back(std::move(word));
  } else if (measure != measure_of<Ratio>()) {
    words.emplace_back("%");
  }
  const std::string units = any_of(words) + (measure.is_factor ? "?" : "");
  const std::string amount = join({blanks, plain_number, blanks, units, blanks});
  const std::string slash = join({"/?", blanks});
  const std::string even = join({"(?:\\+/-|\\+-|\u00B1)", amount});
  const std::string plus_first = join({"\\+", amount, slash, minus, amount});
  const std::string minus_first = join({minus, amount, slash, "\\+", amount});
  return join({"(?:", even, "|", plus_first, "|", minus_first, ")"});
}

}  // namespace

std::string text_pattern(const Measure& measure, Form form) {
  const std::string quantity = quantity_pattern(measure);
  if (form == Form::Exact) return join({"^", blanks, quantity, blanks, "$"});
  const std::string range = join({some_blanks, "to", some_blanks, quantity});
  const std::string tolerance = join({blanks, tolerance_pattern(measure)});
  const std::string ends = join({"(?:", range, "|", tolerance, ")"});
  return join({"^", blanks, quantity, ends, "?", blanks, "$"});
}

}  // namespace tideover::quantity
