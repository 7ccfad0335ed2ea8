#include "cell/read_table.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "cell/log_clock.hpp"
#include "cell/log_number.hpp"
#include "cell/log_text.hpp"
#include "cell/table_field.hpp"

namespace tideover::cell {
namespace {

/// A column of rest voltages, and where their day stands.
struct VoltageColumn {
  std::size_t index = 0;
  std::optional<int> day;                  ///< in the heading
  std::optional<std::size_t> date_column;  ///< or in the same row
};

std::optional<int> day_of(std::string_view text, DateOrder order) {
  const auto clock = read_clock(text, order);
  if (!clock || !clock->is_dated) return std::nullopt;
  const std::int64_t day_s = 86400;
  // Times before 1970 round towards the day they belong to.
  const std::int64_t whole_s = clock->whole_s;
  return static_cast<int>((whole_s - (whole_s % day_s + day_s) % day_s) / day_s);
}

std::optional<int> day_in_heading(const std::string& heading, DateOrder order) {
  for (const std::string& word : split_fields(heading, ' ')) {
    const std::size_t first = word.find_first_of("0123456789");
    const std::size_t last = word.find_last_of("0123456789");
    if (first == std::string::npos) continue;
    if (const auto day = day_of(std::string_view(word).substr(first, last - first + 1), order))
      return day;
  }
  return std::nullopt;
}

class TableReader {
 public:
  TableReader(std::string_view text, const LogText& found, const std::string& file)
      : text_(text), found_(found), file_(file) {}

  TableReading read();

 private:
  void find_columns();
  void find_order();
  void read_row(std::string_view line);
  void read_voltages(std::string_view line, const std::vector<std::string>& fields,
                     TestedCell& cell);
  TestedCell& cell_named(const std::string& name);
  template <class Type>
  std::optional<quantity::Value<Type>> value_at(std::string_view line,
                                                const std::vector<std::string>& fields,
                                                std::size_t index, Measured measured);
  void fault(std::string_view line, std::size_t index, base::Problem problem);
  void finish();
  template <class Deed>
  void each_line(const Deed& deed);

  std::string_view text_;
  const LogText& found_;
  const std::string& file_;
  std::vector<Column> columns_;
  std::size_t name_ = 0;
  std::optional<std::size_t> capacity_;
  std::optional<std::size_t> resistance_;
  std::vector<VoltageColumn> voltages_;
  std::vector<std::size_t> dates_;
  DateOrder order_ = DateOrder::DayFirst;
  int line_ = 0;
  std::map<std::string, std::size_t, std::less<>> known_;
  std::map<std::string, std::string> guessed_;  ///< unit by heading
  std::set<std::string> given_again_;           ///< cells whose capacity stood twice
  TableReading reading_;
};

template <class Deed>
void TableReader::each_line(const Deed& deed) {
  std::size_t at = found_.data_at;
  line_ = found_.data_line;
  for (; at < text_.size(); ++line_) {
    const std::string_view line = next_line(text_, at);
    if (!is_comment(line)) deed(line);
  }
}

/// Several columns may hold voltages: those with a date in their heading, or as many as there are
/// columns of dates. Else the plainest is meant.
void TableReader::find_columns() {
  const Headings& chosen = found_.headings;
  columns_ = chosen.columns;
  name_ = *chosen.find(Role::Cell);
  capacity_ = chosen.find(Role::DischargeCounter);
  if (!capacity_) capacity_ = chosen.find(Role::Counter);
  if (!capacity_) capacity_ = chosen.find(Role::ChargeCounter);
  resistance_ = chosen.find(Role::Resistance);
  std::vector<std::size_t> others;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const Column alone = read_heading(columns_[c].heading);
    if (alone.role == Role::Date || (alone.role == Role::Time && columns_[c].role == Role::Time))
      dates_.push_back(c);
    if (const auto day = day_in_heading(columns_[c].heading, order_)) {
      voltages_.push_back({c, day, std::nullopt});
    } else if (alone.role == Role::Voltage) {
      others.push_back(c);
    }
  }
  if (others.size() > 1 && others.size() == dates_.size()) {
    for (std::size_t i = 0; i < others.size(); ++i)
      voltages_.push_back({others[i], std::nullopt, dates_[i]});
  } else if (const auto best = chosen.find(Role::Voltage);
             best && std::ranges::find(others, *best) != others.end()) {
    voltages_.push_back(
        {*best, std::nullopt, dates_.empty() ? std::nullopt : std::optional(dates_.front())});
  }
}

/// Dates with slashes: the month leads if any second number is above 12.
void TableReader::find_order() {
  each_line([this](std::string_view line) {
    const std::vector<std::string> fields = split_fields(line, found_.dialect.separator);
    for (const std::size_t c : dates_) {
      if (c >= fields.size()) continue;
      const auto clock = read_clock(fields[c], DateOrder::DayFirst);
      if (clock && clock->month_must_lead) order_ = DateOrder::MonthFirst;
    }
  });
}

void TableReader::fault(std::string_view line, std::size_t index, base::Problem problem) {
  problem.place.file = file_;
  problem.place.line = line_;
  problem.place.column = column_of_field(line, found_.dialect.separator, index);
  problem.place.excerpt = std::string(line.substr(0, 200));
  reading_.problems.push_back(std::move(problem));
}

TestedCell& TableReader::cell_named(const std::string& name) {
  const auto [entry, is_new] = known_.try_emplace(name, reading_.cells.size());
  if (is_new) {
    TestedCell& cell = reading_.cells.emplace_back();
    cell.name = name;
    cell.file = file_;
    cell.line = line_;
  }
  return reading_.cells[entry->second];
}

template <class Type>
std::optional<quantity::Value<Type>> TableReader::value_at(std::string_view line,
                                                           const std::vector<std::string>& fields,
                                                           std::size_t index, Measured measured) {
  if (index >= fields.size() || means_no_reading(fields[index])) return std::nullopt;
  std::string guessed;
  const TableColumn column{measured, columns_[index].unit, found_.dialect.decimal};
  auto amount = read_table_field(fields[index], column, guessed);
  if (!amount) {
    fault(line, index, amount.problems().front());
    return std::nullopt;
  }
  if (!guessed.empty()) guessed_.try_emplace(columns_[index].heading, guessed);
  quantity::Value<Type> value;
  static_cast<quantity::Amount&>(value) = amount.value();
  value.source = file_ + ", line " + std::to_string(line_);
  return value;
}

void TableReader::read_voltages(std::string_view line, const std::vector<std::string>& fields,
                                TestedCell& cell) {
  for (const VoltageColumn& column : voltages_) {
    auto voltage = value_at<quantity::Volt>(line, fields, column.index, Measured::Voltage);
    if (!voltage) continue;
    std::optional<int> day = column.day;
    if (column.date_column && *column.date_column < fields.size()) {
      const std::string& text = fields[*column.date_column];
      day = day_of(text, order_);
      if (!day && !means_no_reading(text))
        fault(line, *column.date_column,
              {{}, "`" + text.substr(0, 40) + "` is no date", "Write it as 2024-03-31."});
    }
    cell.rest_voltages.push_back({day, std::move(*voltage)});
  }
}

void TableReader::read_row(std::string_view line) {
  const std::vector<std::string> fields = split_fields(line, found_.dialect.separator);
  if (std::ranges::all_of(fields, [](const std::string& field) { return field.empty(); })) return;
  if (name_ >= fields.size() || fields[name_].empty()) {
    fault(line, std::min(name_, fields.size() - 1),
          {{}, "no name of a cell", "Name the cell in column `" + columns_[name_].heading + "`."});
    return;
  }
  TestedCell& cell = cell_named(fields[name_]);
  if (capacity_) {
    auto capacity = value_at<quantity::Coulomb>(line, fields, *capacity_, Measured::Charge);
    if (capacity && cell.capacity) given_again_.insert(cell.name);
    if (capacity) cell.capacity = std::move(capacity);
  }
  if (resistance_) {
    auto resistance = value_at<quantity::Ohm>(line, fields, *resistance_, Measured::Resistance);
    if (resistance) cell.resistance = std::move(resistance);
  }
  read_voltages(line, fields, cell);
}

void TableReader::finish() {
  for (TestedCell& cell : reading_.cells) {
    std::ranges::stable_sort(cell.rest_voltages, {}, &RestVoltage::day);
  }
  for (const auto& [heading, unit] : guessed_) {
    reading_.remarks.push_back(
        {{},
         found_.heading_line,
         "`" + heading + "` without a unit: taken for " + unit + ", by its size"});
  }
  if (!given_again_.empty())
    reading_.remarks.push_back({*given_again_.begin(), 0,
                                "capacity given more than once for " +
                                    std::to_string(given_again_.size()) +
                                    " cells: the last stands"});
}

TableReading TableReader::read() {
  find_columns();
  find_order();
  each_line([this](std::string_view line) { read_row(line); });
  finish();
  return std::move(reading_);
}

}  // namespace

bool is_table(std::string_view bytes) {
  std::string kept;
  const auto text = plain_text(bytes, kept);
  return text && !find_headings(*text, Kind::Log) && find_headings(*text, Kind::Table);
}

TableReading read_table(std::string_view bytes, const std::string& file) {
  TableReading reading;
  const auto refuse = [&](std::string text, std::string remedy) {
    base::Problem problem{{}, std::move(text), std::move(remedy)};
    problem.place.file = file;
    reading.problems.push_back(std::move(problem));
  };
  std::string kept;
  const auto text = plain_text(bytes, kept);
  if (!text) {
    refuse("the file is no plain text, or UTF-16", "Save it as text in UTF-8 (CSV).");
    return reading;
  }
  const auto found = find_headings(*text, Kind::Table);
  if (!found) {
    refuse("no line names a cell and what was measured of it",
           "Put headings above the columns, such as `cell, capacity (mAh), resistance (mOhm), "
           "rest voltage (V), date`.");
    return reading;
  }
  return TableReader(*text, *found, file).read();
}

}  // namespace tideover::cell
