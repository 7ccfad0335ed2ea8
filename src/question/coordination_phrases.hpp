/// Coordination in words that the terminal and the report share.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "question/coordination.hpp"

namespace tideover::question {

/// What it comes to: leads that nothing protects, leads that are protected too late, fuses of which
/// either may go first; a sentence each.
[[nodiscard]] std::vector<std::string> headline_of(const Coordination& answer);

/// For programs: "nothing", "fuse", "board", "own-limit".
[[nodiscard]] std::string_view in_words(Guard guard);
/// For programs: "none", "late", "thin", "board", "own-limit", "fuse".
[[nodiscard]] std::string_view in_words(Protection protection);
/// For programs: "behind", "before", "uncertain", "none".
[[nodiscard]] std::string_view in_words(First first);

/// "f_pack, 5 A, blade".
[[nodiscard]] std::string fuse_words(const part::Fuse& fuse);
/// "the fuse f_pack", "the board of the pack, board, which is no fuse", "mains24's own limit".
[[nodiscard]] std::string device_words(const LeadShort& one);
/// "20 A to 312 A", or one current where both are the same.
[[nodiscard]] std::string current_words(const finding::ShortCurrent& current);
/// What becomes of a lead in a short circuit from one source: a sentence.
[[nodiscard]] std::string sentence_of(const LeadCover& cover, const LeadShort& one);
/// What may be done about it; empty where it is protected.
[[nodiscard]] std::string advice_for(const LeadCover& cover);

/// "5 A to 9.2 A: either may go first".
[[nodiscard]] std::string stretch_words(const FuseRace& race, const RaceStretch& stretch);
/// The stretches in one sentence, and the energies at the highest current in another.
[[nodiscard]] std::vector<std::string> sentences_of(const FuseRace& race);

/// What stands beside all of it.
[[nodiscard]] const std::vector<std::string>& coordination_cautions();
/// What the answer rests on, in sentences.
[[nodiscard]] const std::vector<std::string>& coordination_basis();

}  // namespace tideover::question
