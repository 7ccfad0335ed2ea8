#include "finding/counts.hpp"

#include <algorithm>
#include <array>

namespace tideover::finding {

namespace {

struct Kind {
  Answer answer;
  const char* one;
  const char* many;
};
constexpr std::array kinds{
    Kind{Answer::Fails, "fails", "fail"},
    Kind{Answer::Unknown, "is unknown", "are unknown"},
    Kind{Answer::Tight, "is tight", "are tight"},
    Kind{Answer::Classed, "is a class", "are classes"},
    Kind{Answer::Holds, "holds", "hold"},
};

bool is_bad(Answer answer) { return answer == Answer::Fails || answer == Answer::Tight; }

std::string joined(std::span<const Found> findings, bool with_bad) {
  std::string text;
  for (const Kind& kind : kinds) {
    if (!with_bad && is_bad(kind.answer)) continue;
    const auto count = std::ranges::count_if(
        findings, [&](const Found& one) { return one.finding.answer == kind.answer; });
    if (count == 0) continue;
    text += (text.empty() ? "" : ", ") + std::to_string(count) + " " +
            (count == 1 ? kind.one : kind.many);
  }
  return text;
}

}  // namespace

std::string counts_in_words(std::span<const Found> findings) { return joined(findings, true); }

std::string others_in_words(std::span<const Found> findings) {
  const auto others =
      std::ranges::count_if(findings, [](const Found& one) { return !is_bad(one.finding.answer); });
  if (others == 0) return {};
  return std::to_string(others) + (others == 1 ? " finding more: " : " findings more: ") +
         joined(findings, false);
}

}  // namespace tideover::finding
