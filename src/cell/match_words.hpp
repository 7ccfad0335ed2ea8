/// A match of cells in plain words: what the groups are, what matching gained, what was left out.
#pragma once

#include <string>
#include <vector>

#include "cell/match.hpp"

namespace tideover::cell {

/// Reads all of `match` but its sentences.
[[nodiscard]] std::vector<std::string> match_sentences(const Match& match,
                                                       const MatchWishes& wishes);

}  // namespace tideover::cell
