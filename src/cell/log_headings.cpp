#include "cell/log_headings.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "cell/heading_words.hpp"
#include "cell/log_fields.hpp"
#include "cell/log_number.hpp"

namespace tideover::cell {
namespace {

using Words = std::vector<std::string>;

bool has(const Words& words, Word group) {
  return std::ranges::any_of(words, [group](std::string_view w) { return is_word(w, group); });
}

/// Takes the unit out of a heading: in brackets, behind a slash, or the last word.
struct Parts {
  Words words;
  std::optional<Unit> unit;
};

Parts parts_of(std::string_view heading) {
  const std::string text = spelt_in_ascii(heading);
  std::string_view rest = text;
  Parts parts;
  const std::size_t open = rest.find_last_of("([{");
  const std::size_t close = rest.find_first_of(")]}", open == std::string_view::npos ? 0 : open);
  if (open != std::string_view::npos && close != std::string_view::npos) {
    parts.unit = read_unit(rest.substr(open + 1, close - open - 1));
    if (parts.unit) {
      parts.words = words_of(rest.substr(0, open));
      const Words behind = words_of(rest.substr(close + 1));
      parts.words.insert(parts.words.end(), behind.begin(), behind.end());
      return parts;
    }
  }
  const std::size_t slash = rest.rfind('/');
  if (slash != std::string_view::npos) parts.unit = read_unit(rest.substr(slash + 1));
  if (parts.unit) rest = rest.substr(0, slash);
  parts.words = words_of(rest);
  if (parts.unit || parts.words.empty()) return parts;
  // A letter by itself is a quantity's sign: V is a voltage either way, t and T are not tonnes.
  const std::optional<Unit> last = read_unit(parts.words.back());
  if (!last || (parts.words.size() == 1 && (last->text == "c" || last->text == "d"))) return parts;
  parts.unit = last;
  if (parts.words.size() > 1) parts.words.pop_back();
  return parts;
}

/// Without a unit the words tell what is measured.
Measured measured_by(const Words& words) {
  if (has(words, Word::Resistance)) return Measured::Resistance;
  if (has(words, Word::Temperature)) return Measured::Temperature;
  if (has(words, Word::Voltage)) return Measured::Voltage;
  if (has(words, Word::Current)) return Measured::Current;
  if (has(words, Word::Time)) return Measured::Time;
  if (has(words, Word::Charge) && !has(words, Word::Cell)) return Measured::Charge;
  return Measured::Nothing;
}

Role with_direction(const Words& words, Role both, Role charge, Role discharge) {
  const bool out = has(words, Word::Discharging);
  const bool in = has(words, Word::Charging);
  if (out && !in) return discharge;
  // `Charge (Ah)` is a counter; `Charge capacity (Ah)` counts one direction.
  const auto quantities = std::ranges::count_if(words, [](std::string_view w) {
    return is_word(w, Word::Charge) || is_word(w, Word::Current);
  });
  const bool is_plain = quantities == 1 && std::ranges::any_of(words, [](std::string_view w) {
                          return w == "charge";
                        });
  if (in && !out && (!is_plain || both == Role::Current)) return charge;
  return both;
}

Role role_of(const Words& words, Measured measured) {
  switch (measured) {
    case Measured::Time: return has(words, Word::Temperature) ? Role::Ignored : Role::Time;
    case Measured::Voltage: return Role::Voltage;
    case Measured::Current:
      return with_direction(words, Role::Current, Role::ChargeCurrent, Role::DischargeCurrent);
    case Measured::Charge:
      return with_direction(words, Role::Counter, Role::ChargeCounter, Role::DischargeCounter);
    case Measured::Temperature:
      return has(words, Word::Ambient) ? Role::Ambient : Role::Temperature;
    case Measured::Resistance: return Role::Resistance;
    case Measured::Other: return Role::Ignored;
    case Measured::Nothing: break;
  }
  if (has(words, Word::State)) return Role::State;
  if (has(words, Word::Run) || has(words, Word::Step)) {
    return has(words, Word::Cell) ? Role::Cell : Role::Label;
  }
  if (has(words, Word::Cell) || has(words, Word::Serial) || has(words, Word::Channel) ||
      has(words, Word::Ordinal)) {
    return Role::Cell;
  }
  return Role::Ignored;
}

int rank_of(const Words& words, Role role) {
  const int spare = 10 - static_cast<int>(std::min<std::size_t>(words.size(), 5));
  if (role == Role::Cell) {
    if (has(words, Word::Cell)) return 20;
    if (has(words, Word::Serial)) return 18;
    return has(words, Word::Channel) ? 16 : 14;
  }
  if (role == Role::Label) return has(words, Word::Run) ? 20 : 1;
  if (has(words, Word::Extreme)) return 1;
  if (role == Role::Time) {
    if (has(words, Word::Total)) return 20;
    if (has(words, Word::Partial)) return 2;
  }
  return spare;
}

bool is_foreign(const Words& words, Role role) {
  if (role == Role::Ignored || role == Role::Label || role == Role::State || role == Role::Cell)
    return false;
  return has(words, Word::Foreign);
}

bool is_dated(const Words& words, Role role, const std::optional<Unit>& unit) {
  return !unit && has(words, Word::Date) && (role == Role::Ignored || role == Role::Time) &&
         std::ranges::none_of(words, [](std::string_view w) {
           return w == "datetime" || w == "time" || w == "timestamp";
         });
}

}  // namespace

Column read_heading(std::string_view text) {
  Column column;
  column.heading = std::string(trimmed(text));
  if (column.heading.size() > 200) return column;
  const Parts parts = parts_of(column.heading);
  const Words& words = parts.words;
  if (words.empty()) return column;
  if (parts.unit) column.unit = *parts.unit;
  // The letter C is degrees beside a word for temperature, coulombs beside one for charge.
  if (parts.unit && parts.unit->text == "c" && !has(words, Word::Temperature) && words[0] != "t") {
    column.unit = Unit{"c", has(words, Word::Charge) ? Measured::Charge : Measured::Other};
  }
  const Measured measured = parts.unit ? column.unit.measured : measured_by(words);
  column.role = role_of(words, measured);
  if (is_dated(words, column.role, parts.unit)) column.role = Role::Date;
  if (is_foreign(words, column.role)) column.role = Role::Ignored;
  // A count of discharges is no charge.
  if (!parts.unit && column.role == Role::DischargeCounter && words.size() == 1)
    column.role = Role::Label;
  column.rank = rank_of(words, column.role);
  column.is_mean = has(words, Word::Mean);
  return column;
}

std::vector<Column> read_headings(const std::vector<std::string>& fields) {
  std::vector<Column> columns;
  columns.reserve(fields.size());
  for (const std::string& field : fields) columns.push_back(read_heading(field));
  return columns;
}

bool take_units(std::vector<Column>& columns, const std::vector<std::string>& fields) {
  if (fields.size() > columns.size()) return false;
  std::vector<std::string> joined;
  joined.reserve(columns.size());
  bool any = false;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    std::string_view field = c < fields.size() ? trimmed(fields[c]) : std::string_view{};
    if (field.find_first_of("0123456789") != std::string_view::npos) return false;
    if (field.size() > 2 && (field.front() == '(' || field.front() == '['))
      field = field.substr(1, field.size() - 2);
    const bool is_unit = read_unit(field).has_value();
    any = any || is_unit;
    if (!is_unit && !means_no_reading(field)) return false;
    joined.push_back(columns[c].heading + (is_unit ? " (" + std::string(field) + ")" : ""));
  }
  if (any) columns = read_headings(joined);
  return any;
}

std::vector<std::string> join_units(const std::vector<std::string>& fields) {
  std::vector<std::string> joined;
  for (const std::string& field : fields) {
    const bool is_unit = field.size() > 2 && (field.front() == '(' || field.front() == '[');
    if (is_unit && !joined.empty()) {
      joined.back() += ' ' + field;
    } else {
      joined.push_back(field);
    }
  }
  return joined;
}

Headings choose_columns(std::vector<Column> columns) {
  // With a column of time beside it a plain T is the temperature.
  const auto is_letter = [](const Column& c) {
    return c.role == Role::Time && c.unit.measured == Measured::Nothing && c.heading == "T";
  };
  const auto times = std::ranges::count(columns, Role::Time, &Column::role);
  for (Column& column : columns) {
    if (times > 1 && is_letter(column)) column.role = Role::Temperature;
  }
  for (std::size_t a = 0; a < columns.size(); ++a) {
    for (std::size_t b = a + 1; b < columns.size(); ++b) {
      if (columns[a].role != columns[b].role || columns[a].role == Role::Ignored) continue;
      (columns[b].rank > columns[a].rank ? columns[a] : columns[b]).role = Role::Ignored;
      if (columns[a].role == Role::Ignored) break;
    }
  }
  return {std::move(columns)};
}

std::optional<std::size_t> Headings::find(Role role) const {
  const auto found = std::ranges::find(columns, role, &Column::role);
  if (found == columns.end()) return std::nullopt;
  return static_cast<std::size_t>(found - columns.begin());
}

bool Headings::has_current() const {
  return has(Role::Current) || has(Role::ChargeCurrent) || has(Role::DischargeCurrent);
}

bool Headings::make_a_log() const {
  if (!has(Role::Voltage)) return false;
  if (has_current()) return has(Role::Time) || has(Role::Date);
  // A logger of cells at rest shows no current; where there is power there is one.
  const bool has_power = std::ranges::any_of(
      columns, [](const Column& c) { return c.unit.text == "w" || c.unit.text == "mw"; });
  return has(Role::Time) && !has_power && !has(Role::Cell);
}

bool Headings::make_a_table() const {
  return has(Role::Cell) &&
         (has(Role::Counter) || has(Role::ChargeCounter) || has(Role::DischargeCounter) ||
          has(Role::Resistance) || has(Role::Voltage));
}

}  // namespace tideover::cell
