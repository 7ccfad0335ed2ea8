/// What a column holds, told from its heading: `Voltage [V]`, `i_A`, `t/min`, `Temp. (°C)`.
///
/// A heading is words and perhaps a unit: in brackets, behind a slash, or its last word. The unit
/// decides what is measured, the words which of several such columns is meant.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tideover::cell {

enum class Measured { Nothing, Time, Voltage, Current, Charge, Temperature, Resistance, Other };

/// A unit as written. A value is its number divided by ten to the power of `shift`, times
/// `factor`, plus `offset`: in s, V, A, A s, degC or ohm.
struct Unit {
  std::string_view text;
  Measured measured = Measured::Nothing;
  int shift = 0;
  double factor = 1.0;
  double offset = 0.0;
};

/// The unit that `text` writes, whatever its letter case: "mAh", "°C", "min". Empty if none.
[[nodiscard]] std::optional<Unit> read_unit(std::string_view text);

enum class Role {
  Ignored,
  Time,
  Date,
  Voltage,
  Current,           ///< signed, or unsigned beside a column of states
  ChargeCurrent,     ///< only while charging, without sign
  DischargeCurrent,  ///< only while discharging
  Counter,
  ChargeCounter,
  DischargeCounter,
  Temperature,  ///< of the case
  Ambient,      ///< of the air around; the last whose fields are numbers
  State,        ///< a word: charging, discharging, resting
  Label,        ///< names the run, part, block or cycle
  Cell,
  Resistance,
};

struct Column {
  Role role = Role::Ignored;
  Unit unit;             ///< measures nothing if the heading tells none
  int rank = 0;          ///< of two columns for one role the one with the higher rank is meant
  bool is_mean = false;  ///< "mean", "average": of the time before the sample
  std::string heading;
};

/// One heading by itself. Never fails: what is not understood is ignored.
[[nodiscard]] Column read_heading(std::string_view text);

/// A line of headings: every role held by one column at most, the others ignored.
struct Headings {
  std::vector<Column> columns;

  /// Index of the column, if any.
  [[nodiscard]] std::optional<std::size_t> find(Role role) const;
  [[nodiscard]] bool has(Role role) const { return find(role).has_value(); }
  [[nodiscard]] bool has_current() const;
  /// Enough for a log: a time, a voltage, and something of a current.
  [[nodiscard]] bool make_a_log() const;
  /// Enough for a table of tested cells: names, and one value of them.
  [[nodiscard]] bool make_a_table() const;
};

/// Headings before the choice: several columns may have one role.
[[nodiscard]] std::vector<Column> read_headings(const std::vector<std::string>& fields);

/// Of several columns with one role the plainest stays.
[[nodiscard]] Headings choose_columns(std::vector<Column> columns);

/// A line below the headings that holds their units and nothing else: `s;V;A`. Taken over into the
/// columns; false, and nothing changed, if the line is another.
[[nodiscard]] bool take_units(std::vector<Column>& columns, const std::vector<std::string>& fields);

/// The headings of blank-separated lines with the units moved to their words: `Time (s)` is one.
[[nodiscard]] std::vector<std::string> join_units(const std::vector<std::string>& fields);

}  // namespace tideover::cell
