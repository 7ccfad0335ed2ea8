/// Sources said once and referred to by number.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace tideover::papers {

class SourceNotes {
 public:
  /// The number of a source, from 1 on, the same for the same words; 0 for none.
  [[nodiscard]] std::size_t number(const std::string& source) {
    if (source.empty()) return 0;
    const auto [known, is_new] = numbers_.try_emplace(source, all_.size() + 1);
    if (is_new) all_.push_back(source);
    return known->second;
  }
  /// In the order of their numbers.
  [[nodiscard]] const std::vector<std::string>& all() const { return all_; }

 private:
  std::map<std::string, std::size_t> numbers_;
  std::vector<std::string> all_;
};

}  // namespace tideover::papers
