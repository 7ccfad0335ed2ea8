#include "papers/csv_field.hpp"

namespace tideover::papers {

std::string csv_field(const std::string& words) {
  if (words.find_first_of("\",\r\n") == std::string::npos) return words;
  std::string text = "\"";
  for (const char letter : words) {
    if (letter == '"') text += '"';
    text += letter;
  }
  return text + '"';
}

}  // namespace tideover::papers
