#include "base/problem.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "base/text.hpp"

namespace tideover::base {
namespace {

constexpr std::size_t widest_excerpt = 100;  // code points shown of one line
constexpr std::size_t lead_in = 60;          // of them before the place, when the line is cut
constexpr std::size_t longest_text = 1000;   // code points of a message or a remedy

/// Control bytes and broken UTF-8 as `?`, tabs as one space: one column each on any terminal.
std::string make_safe(std::string_view text) {
  std::string safe;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = at + byte_of_code_point(text.substr(at), 1);
    const std::string_view point = text.substr(at, end - at);
    const auto byte = static_cast<unsigned char>(point.front());
    // U+0080 to U+009F are control codes too and steer some terminals.
    const bool high_control =
        byte == 0xC2 && point.size() == 2 && static_cast<unsigned char>(point[1]) < 0xA0;
    if (byte == '\t') {
      safe += ' ';
    } else if (byte < 0x20 || byte == 0x7F || high_control || first_bad_utf8(point)) {
      safe += '?';
    } else {
      safe += point;
    }
    at = end;
  }
  return safe;
}

/// No message drowns the others, whatever it quotes.
std::string cut(const std::string& text) {
  if (count_code_points(text) <= longest_text) return text;
  return text.substr(0, byte_of_code_point(text, longest_text)) + " ...";
}

std::string head_of(const Place& place) {
  std::string head = make_safe(place.file);
  if (place.line > 0) {
    if (!head.empty()) head += ':';
    head += std::to_string(place.line);
    if (place.column > 0) head += ':' + std::to_string(place.column);
  }
  return head;
}

/// The line, cut around the place if long, with the caret line below it.
std::string excerpt_of(const Place& place) {
  const std::string line = make_safe(place.excerpt);
  const std::size_t points = count_code_points(line);
  const auto column = static_cast<std::size_t>(std::max(1, place.column));
  std::size_t first = 0;
  if (points > widest_excerpt && column > lead_in) first = std::min(column - lead_in, points);
  const std::size_t last = std::min(points, first + widest_excerpt);
  const std::size_t begin = byte_of_code_point(line, first);
  const std::string_view shown =
      std::string_view(line).substr(begin, byte_of_code_point(line, last) - begin);
  const std::string before = first > 0 ? "... " : "";
  const std::string after = last < points ? " ..." : "";
  const std::size_t indent = std::min(column - 1, points) - first + before.size();
  const std::size_t room = last + 1 > column ? last + 1 - column : 1;
  const auto length = static_cast<std::size_t>(std::max(1, place.length));
  std::string text = "    " + before + std::string(shown) + after + "\n";
  return text + "    " + std::string(indent, ' ') + std::string(std::min(length, room), '^') + "\n";
}

}  // namespace

std::string show(const Problem& problem) {
  std::string text = head_of(problem.place);
  if (!text.empty()) text += ": ";
  text += cut(make_safe(problem.text)) + "\n";
  if (problem.place.line > 0 && problem.place.column > 0) text += excerpt_of(problem.place);
  if (!problem.remedy.empty()) text += "  " + cut(make_safe(problem.remedy)) + "\n";
  return text;
}

std::string show(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += show(problem);
  return text;
}

}  // namespace tideover::base
