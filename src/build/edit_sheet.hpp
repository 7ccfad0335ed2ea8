/// Changes to the text of a sheet where it stands: what an edit does not concern keeps its bytes,
/// comments, order and line ends included.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace tideover::build {

/// One change. Paths are TOML's own, as the sheet has them: "parts.pack.cell.capacity",
/// "leads.sea_supply.length", "timelines.storm.stretch.2.lasts" (items count from 1), keys between
/// quotes where they need it; or those of build/parameter.hpp: "pack.capacity".
struct Edit {
  enum class Deed {
    Set,     ///< `value` at `path`, whether there is one or not; of a value with an origin, the
             ///< value alone
    Unset,   ///< takes away the key `path`
    Add,     ///< the table `path` with `keys`
    Remove,  ///< the table `path` and what stands in it
    Rename,  ///< the last key of `path` becomes `to`; of a part, what names it follows
    Append,  ///< one more item with `keys`, at the end of the list `path`
    Drop,    ///< the item `path` of a list
  };
  Deed deed{};
  std::string path;
  /// As a person would type it, "3 Ah": quotes are put where TOML needs them. A value that begins
  /// with a bracket, brace or quote is TOML already.
  std::string value = {};
  std::string to = {};
  std::vector<std::pair<std::string, std::string>> keys = {};
};

/// All of them in order, or none: the text with the changes, or why one cannot be made. The text
/// must be sound TOML; that the sheet makes sense is not asked.
[[nodiscard]] base::Result<std::string> edit_sheet(std::string_view text,
                                                   std::span<const Edit> edits,
                                                   const std::string& file_name);

}  // namespace tideover::build
