#include "unit/drawing/xml_reading.hpp"

#include <algorithm>
#include <cctype>
#include <set>

namespace {

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  XmlReading read() {
    element();
    while (at_ < text_.size() && text_[at_] == '\n') ++at_;
    if (at_ != text_.size()) fail("something after the last element");
    return std::move(reading_);
  }

 private:
  void fail(const std::string& what) {
    if (reading_.fault.empty()) reading_.fault = what + " at byte " + std::to_string(at_);
  }
  [[nodiscard]] bool good() const { return reading_.fault.empty(); }

  bool take(std::string_view expected) {
    if (text_.substr(at_, expected.size()) != expected) return false;
    at_ += expected.size();
    return true;
  }

  std::string name() {
    const std::size_t first = at_;
    const auto letter = [](char c) {
      return std::isalnum(static_cast<unsigned char>(c)) || c == '-';
    };
    while (at_ < text_.size() && letter(text_[at_])) ++at_;
    if (at_ == first) fail("no name");
    return std::string(text_.substr(first, at_ - first));
  }

  // Up to `stop`; checks references and refuses control characters.
  std::string characters(char stop) {
    const std::size_t first = at_;
    while (good() && at_ < text_.size() && text_[at_] != stop) {
      const char c = text_[at_];
      if (c == '<') fail("a bare <");
      if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t' && c != '\r') {
        fail("a control character");
      }
      if (c == '&') reference();
      ++at_;
    }
    if (at_ >= text_.size()) fail("no end of characters");
    return std::string(text_.substr(first, at_ - first));
  }

  void reference() {
    const std::size_t end = text_.find(';', at_);
    const std::string_view entity =
        text_.substr(at_, end == std::string_view::npos ? 0 : end - at_);
    static const std::set<std::string_view> known{"&amp", "&lt", "&gt", "&quot", "&apos", "&#39"};
    if (known.count(entity) == 0) fail("an unknown reference");
  }

  void element() {
    if (!take("<")) return fail("no element");
    const std::string element_name = name();
    reading_.elements.push_back(element_name);
    std::set<std::string> seen;
    while (good() && take(" ")) {
      const std::string attribute = name();
      if (!seen.insert(attribute).second) fail("an attribute twice");
      if (!take("=\"")) return fail("no attribute value");
      reading_.attributes.emplace_back(attribute, characters('"'));
      if (!take("\"")) return fail("no end of the value");
    }
    if (take("/>") || !good()) return;
    if (!take(">")) return fail("no end of the tag");
    while (good()) {
      (void)characters('<');
      if (take("</")) break;
      if (good()) element();
    }
    if (good() && (name() != element_name || !take(">"))) fail("the wrong closing tag");
  }

  std::string_view text_;
  std::size_t at_ = 0;
  XmlReading reading_;
};

}  // namespace

std::size_t XmlReading::count(std::string_view element) const {
  return static_cast<std::size_t>(std::count(elements.begin(), elements.end(), element));
}

std::vector<std::string> XmlReading::values(std::string_view attribute) const {
  std::vector<std::string> found;
  for (const auto& [name, value] : attributes) {
    if (name == attribute) found.push_back(value);
  }
  return found;
}

XmlReading read_xml(std::string_view text) { return Reader(text).read(); }
