#include "finding/figures.hpp"

#include <fmt/format.h>

#include "quantity/show.hpp"

namespace tideover::finding {

std::string in_words(const Figure& figure) {
  constexpr int digits = 4;
  return quantity::show_si(figure.value_si, figure.measure, digits);
}

std::string margin_in_words(const Finding& finding) {
  if (!finding.margin) return {};
  const double percent = 100.0 * *finding.margin;
  return percent < 0.0 ? fmt::format("exceeded by {:.1f} %", -percent)
                       : fmt::format("{:.0f} % left", percent);
}

std::string figures_in_words(const Finding& finding) {
  std::string text;
  const auto add = [&](const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : ", ") + words;
  };
  if (finding.measured) add("comes to " + in_words(*finding.measured));
  if (finding.limit) add("limit " + in_words(*finding.limit));
  add(margin_in_words(finding));
  return text;
}

}  // namespace tideover::finding
