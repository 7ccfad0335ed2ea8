/// Changes of source in words that the terminal and the report share.
#pragma once

#include <string>
#include <vector>

#include "question/changeover.hpp"

namespace tideover::question {

/// "Both devices ride through every change of source." and what does not, a sentence each.
[[nodiscard]] std::vector<std::string> headline_of(const Changeovers& changes);

/// "The mains goes", "mains24 is unplugged": a title.
[[nodiscard]] std::string title_of(const Changeover& change);

/// "12 ms", "3.25 ms", "1.2 s".
[[nodiscard]] std::string show_after(quantity::Second after);

/// "23.8 V before, drawing 9.5 W; lowest 10.9 V after 138 ms: "; empty where nothing feeds it.
[[nodiscard]] std::string voltage_words(const Passage& passage);

/// "rides through", "rides through narrowly", "does not ride through: lost after 31 ms".
[[nodiscard]] std::string verdict_of(const Passage& passage);

/// "none", "12 ms below", "3 ms above": how long it was out of its range.
[[nodiscard]] std::string out_of_range_words(const Passage& passage);

/// The view in which the worst for that load came about, in words.
[[nodiscard]] std::string seen_in(const Changeover& change, std::size_t load);

/// What a search came to, in sentences: what to fit, the closed formula, the remarks.
[[nodiscard]] std::vector<std::string> sentences_of(const HoldUp& answer);

}  // namespace tideover::question
