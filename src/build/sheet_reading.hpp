/// What the readers of a sheet's tables share while one sheet is read.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/toml.hpp"
#include "build/build.hpp"
#include "part/read_fields.hpp"

namespace tideover::build {

/// A terminal named in a lead or a join, and where. Both part and terminal exist.
struct WiredEnd {
  TerminalName terminal;
  base::Place place;
};

/// One lead or join: all its ends are one point once it is made.
struct Tie {
  std::string means;  ///< "lead `sea_supply`"
  base::Place place;
  std::vector<WiredEnd> ends;
};

struct SheetReading {
  part::FieldReader& fields;
  Build& build;
  std::map<std::string, base::Place, std::less<>> part_places;  ///< also of parts that failed,
                                                                ///< whose terminals are not known
  std::vector<Tie> ties;
  bool all_ties_sound = true;  ///< else a terminal may only seem to be unwired

  [[nodiscard]] std::vector<std::string> part_names() const;
  /// The sound part of that name; null, after telling at `place` if there is none at all.
  [[nodiscard]] const part::Part* find_part(std::string_view name, const base::Place& place);
  /// Tells and says false if `entry.key` is no name for a part, lead, join or timeline: letters,
  /// digits, `_` and `-`, at most 40, the first one a letter or a digit.
  bool check_name(const base::TomlEntry& entry);
  /// `pack.plus` out of a node, checked against the parts; nothing after telling.
  [[nodiscard]] std::optional<WiredEnd> read_end(const base::TomlNode& node);
};

/// Tells the sentences of contradictions(), each at the key it begins with.
void tell_contradictions(const std::vector<std::string>& sentences, const base::TomlNode& table,
                         part::FieldReader& fields);

void read_parts(const base::TomlNode& table, SheetReading& reading);
void read_leads(const base::TomlNode& table, SheetReading& reading);
void read_joins(const base::TomlNode& table, SheetReading& reading);
void read_timelines(const base::TomlNode& table, SheetReading& reading);
void read_start(const base::TomlNode& table, SheetReading& reading);
/// Unwired terminals that must be wired, packs with more or fewer groups than their board watches,
/// and parts whose plus and minus meet.
void check_wiring(SheetReading& reading);

inline constexpr std::size_t most_parts = 300;
inline constexpr std::size_t most_leads = 1000;

}  // namespace tideover::build
