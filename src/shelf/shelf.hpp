/// Part data. A file `cell.toml` is the list "cell"; each of its tables is a row:
///
///     [nmc-21700-4000]
///     source = "where the values come from"   # without it the row is not loaded
///     origin = "datasheet"                     # or measured, typical (when left out), assumed
///     capacity = "4 Ah +/- 2 %"                # values as on a sheet
///     to_air = { value = "21 K/W", origin = "assumed", source = "its own" }
///
/// Lists are named for a part kind (`from = "shelf:..."` in a part), "wire" (in a lead), or as a
/// kind's record says (`cell = "shelf:..."`).
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/toml.hpp"
#include "part/read_fields.hpp"
#include "shelf/shelf_files.hpp"

namespace tideover::shelf {

class Shelf final : public part::Stock {
 public:
  /// An empty shelf.
  Shelf() = default;
  /// Reads the files; what does not load is in problems() and nowhere else.
  explicit Shelf(std::span<const ShelfFile> files);

  [[nodiscard]] const base::TomlNode* find_row(std::string_view list,
                                               std::string_view name) const override;
  [[nodiscard]] std::vector<std::string> names(std::string_view list) const override;
  [[nodiscard]] std::vector<std::string> lists() const;
  [[nodiscard]] const base::Problems& problems() const { return problems_; }

 private:
  void read_file(const ShelfFile& file);
  void take_row(const std::string& list, const base::TomlEntry& row);

  std::map<std::string, base::TomlNode, std::less<>> lists_;  ///< tables whose entries are the rows
  base::Problems problems_;
};

/// The shelf that the program carries; read once.
[[nodiscard]] const Shelf& built_in_shelf();

/// What the rows say wrong, each read with the description its list is for; a list that no kind
/// uses is a problem too.
[[nodiscard]] base::Problems check_rows(const Shelf& shelf);

}  // namespace tideover::shelf
