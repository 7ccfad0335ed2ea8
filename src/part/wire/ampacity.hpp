/// What current a wire may carry for good. There is no single right answer: published tables differ
/// by up to seven to one, so every answer names the table it came from.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/units.hpp"

namespace tideover::part {

/// How a wire lies: with others in a bundle or duct, as a core of a cable, or alone in free air.
enum class Laid { Bundled, Multicore, Single };

struct AmpacityRow {
  double area_mm2;
  double current_a;
};

/// Rows rise in area. `ambient` and `conductor` are the temperatures the table was made for.
struct AmpacityTable {
  std::string_view name;
  std::string_view source;
  Laid laid;
  quantity::Temperature ambient;
  quantity::Temperature conductor;
  bool is_for_full_bundles;  ///< already made for a bundle of many loaded wires
  std::span<const AmpacityRow> rows;
};

/// In order of preference for wire in a small supply.
[[nodiscard]] std::span<const AmpacityTable> ampacity_tables();
/// nullptr if there is none of that name.
[[nodiscard]] const AmpacityTable* find_ampacity_table(std::string_view name);
/// Between listed sizes a straight line on logarithmic axes; nothing outside the table.
[[nodiscard]] std::optional<quantity::Ampere> tabled_ampacity(const AmpacityTable& table,
                                                              quantity::SquareMetre size);
/// sqrt((limit - ambient) / (rise of the table)): heat goes with the square of the current and with
/// the rise. `limit` is what the insulation stands; 0 if the ambient is at or above it.
[[nodiscard]] double ambient_factor(const AmpacityTable& table, quantity::Temperature ambient,
                                    quantity::Temperature limit);
/// For `loaded` loaded wires side by side; VDE 0298-4 table 26 as restated by kochkt.ch, a count
/// between two rows takes the lower factor, three and fewer need none.
[[nodiscard]] double grouping_factor(int loaded);
/// Share of the single-wire current that each of `wires` in a bundle may carry: (29 - N) / 28, one
/// half above fifteen. A derating rule of space flight (from memory).
[[nodiscard]] double bundle_share(int wires);
/// One ampere for every 700 circular mils: an old rule of power transmission, for any size.
[[nodiscard]] quantity::Ampere by_700_circular_mils(quantity::SquareMetre size);

struct Ampacity {
  quantity::Ampere current;
  std::string table;  ///< name of the table or rule it came from
};
/// The rule of by_700_circular_mils(), by name.
inline constexpr std::string_view circular_mils_rule = "700 circular mils per ampere";

/// Copper, by one table with its factors; nothing outside the table. `loaded` counts the wire
/// itself.
[[nodiscard]] std::optional<Ampacity> ampacity_by(const AmpacityTable& table,
                                                  quantity::SquareMetre size, int loaded,
                                                  quantity::Temperature ambient,
                                                  quantity::Temperature limit);
/// The same by the first table for wire laid so that covers the size; by 700 circular mils per
/// ampere where none does.
[[nodiscard]] Ampacity ampacity_of(quantity::SquareMetre size, Laid laid, int loaded,
                                   quantity::Temperature ambient, quantity::Temperature limit);

}  // namespace tideover::part
