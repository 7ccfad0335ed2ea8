#include "part/wire/colour.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace tideover::part {

namespace {

constexpr std::string_view protective_code = "GNYE";

std::string code_of(const std::vector<std::size_t>& colours) {
  std::string code;
  for (const std::size_t colour : colours) code += colour_letters()[colour].letters;
  return code;
}

std::vector<std::string> all_letters() {
  std::vector<std::string> letters;
  for (const ColourLetters& colour : colour_letters()) letters.emplace_back(colour.letters);
  return letters;
}

std::string unknown_colour(std::string_view code) {
  std::string fault = "`" + std::string(code) + "` is no colour code of IEC 60757; ";
  for (const ColourLetters& colour : colour_letters()) {
    if (colour.name == base::lower_case(code)) {
      return fault + "write " + std::string(colour.letters);
    }
  }
  return fault + "write letter pairs of " + base::list_in_words(all_letters());
}

}  // namespace

const std::vector<ColourLetters>& colour_letters() {
  static const std::vector<ColourLetters> all = {
      {"BK", "black"}, {"BN", "brown"}, {"RD", "red"},       {"OG", "orange"}, {"YE", "yellow"},
      {"GN", "green"}, {"BU", "blue"},  {"VT", "violet"},    {"GY", "grey"},   {"WH", "white"},
      {"PK", "pink"},  {"GD", "gold"},  {"TQ", "turquoise"}, {"SR", "silver"},
  };
  return all;
}

std::optional<std::vector<std::size_t>> read_colours(std::string_view code) {
  if (code.empty() || code.size() % 2 != 0) return std::nullopt;
  std::vector<std::size_t> colours;
  const auto& all = colour_letters();
  for (std::size_t at = 0; at < code.size(); at += 2) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const ColourLetters& colour) {
      return colour.letters == code.substr(at, 2);
    });
    if (found == all.end()) return std::nullopt;
    colours.push_back(static_cast<std::size_t>(found - all.begin()));
  }
  return colours;
}

std::string colour_in_words(std::string_view code) {
  const auto colours = read_colours(code);
  if (!colours) return std::string(code);
  std::vector<std::string> words;
  for (const std::size_t colour : *colours) words.emplace_back(colour_letters()[colour].name);
  return base::list_in_words(words, "and");
}

std::optional<std::string> colour_fault(std::string_view code, bool is_protective) {
  const auto colours = read_colours(code);
  if (!colours) return unknown_colour(code);
  auto sorted = *colours;
  std::sort(sorted.begin(), sorted.end());
  if (std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end()) {
    return "`" + std::string(code) + "` names a colour twice; write it once";
  }
  const bool is_green_and_yellow = code_of(sorted) == "YEGN";
  if (is_green_and_yellow && !is_protective) {
    return "green and yellow together are kept for protective earth; take another colour, or say "
           "protective = true";
  }
  const std::string right = is_green_and_yellow ? std::string(protective_code) : code_of(sorted);
  if (code != right) {
    return "`" + std::string(code) + "` is out of order; IEC 60757 writes " + right;
  }
  if (is_protective && !is_green_and_yellow) {
    return "a protective earth wire is green and yellow; write GNYE";
  }
  return std::nullopt;
}

}  // namespace tideover::part
