/// The instants of a run at which what feeds the loads changes: the mains goes or comes back, a DC
/// plug is pulled or put back, a switch is thrown, a pack is cut off or let go again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "build/build.hpp"
#include "run/record.hpp"

namespace tideover::question {

/// A stretch of a timeline that changes something is planned; what a board does of itself is not.
/// Changes that begin while an earlier one is still under way belong to that one: a plug that is
/// pulled and put back 15 ms later is one change.
struct SourceChange {
  enum class What {
    Mains,  ///< at all adapters or at some, at the mains side or at the DC plug
    Switch,
    CutOff,   ///< of a pack, by its board
    Release,  ///< of a pack, by its board
  };
  What what{};
  quantity::Second at;      ///< instant of the record
  quantity::Second until;   ///< when it is over, see below; before the next change
  std::string words;        ///< "the mains goes", "mains24 is unplugged"
  std::string before = {};  ///< the stretch before it in words; a run starts with the mains
  bool is_over = true;      ///< false: something still happens at `until`
  /// Which of `Record::stretches` it begins with; nothing for what a board does.
  std::optional<std::size_t> stretch = {};
};

/// A change is over when for `quiet_s` no part has done anything, every load has been in its range
/// and no load's voltage has moved by more than `moves_share`; before a part has done anything at
/// all, `patience_s` are waited for it (adapters take their time to start). It is watched for
/// `watched_s` at most. Assumed: longer than adapters hold up and start, shorter than a pack takes
/// to empty.
inline constexpr double quiet_s = 1.0;
inline constexpr double patience_s = 5.0;
inline constexpr double watched_s = 30.0;
inline constexpr double moves_share = 0.01;

/// What a load accepts.
struct AcceptedRange {
  std::string load;
  quantity::Volt low;
  quantity::Volt high;
  quantity::Second rides;  ///< out of that range
};
/// Of every load, in the order of the sheet.
[[nodiscard]] std::vector<AcceptedRange> accepted_ranges(const build::Build& build);

/// In the order of the record, which has samples and is of `build`.
[[nodiscard]] std::vector<SourceChange> source_changes_of(const run::Record& record,
                                                          const build::Build& build);

}  // namespace tideover::question
