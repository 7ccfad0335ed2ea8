#include "cell/log_rows.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>
#include <limits>
#include <map>

#include "cell/log_clock.hpp"
#include "cell/log_number.hpp"

namespace tideover::cell {
namespace {

constexpr double no_reading = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t role_count = static_cast<std::size_t>(Role::Ambient) + 1;
constexpr int problems_told = 20;
constexpr std::size_t cells_at_most = 2000;

/// What is done with one field of a row.
struct Field {
  enum class Deed { Skip, Number, Clock, Word };
  Deed deed = Deed::Skip;
  Role role = Role::Ignored;
  int shift = 0;
  double factor = 1.0;
  double offset = 0.0;
  bool is_plain = true;  ///< factor 1, offset 0
  // Of words: the last one seen, and its number.
  std::string_view last;
  std::uint32_t word = 0;
};

bool is_needed(Role role) { return role == Role::Time || role == Role::Voltage; }

class RowReader {
 public:
  RowReader(std::string_view text, const LogText& found, const std::string& file, DateOrder order)
      : text_(text), dialect_(found.dialect), file_(file), order_(order) {
    take_headings(found.headings);
    fast_mark_ = dialect_.separator == ',' ? '.' : dialect_.decimal;
    at_ = found.data_at;
    line_ = found.data_line;
  }

  /// False if a date showed that months lead, after others were read with days first.
  [[nodiscard]] bool read();
  /// What was read, every column of a cell of the same length.
  [[nodiscard]] RawRows take();

 private:
  void take_headings(const Headings& headings);
  const char* fast_row(const char* at, const char* end);
  const char* fast_word(Field& field, const char* at, const char* end);
  void slow_row(std::string_view line);
  bool slow_field(Field& field, std::string_view text);
  bool take_clock(const Field& field, std::string_view text);
  void take_word(Field& field, std::string_view text);
  bool take_headings_again(std::string_view line);
  void fault(std::string_view line, std::size_t index, std::string text, std::string remedy);
  [[nodiscard]] bool is_complete() const;
  void store();
  RawLog& log_of_row();

  std::string_view text_;
  Dialect dialect_;
  const std::string& file_;
  DateOrder order_;
  char fast_mark_ = '.';
  std::size_t at_ = 0;
  int line_ = 0;
  std::vector<Field> fields_;
  std::vector<Role> stored_;  ///< roles of numbers that a column has
  bool has_label_ = false;
  bool has_state_ = false;
  bool has_cell_ = false;
  bool headings_new_ = false;
  bool month_must_lead_ = false;
  bool day_led_ = false;
  // The row at hand.
  std::array<double, role_count> value_{};
  std::uint32_t label_ = 0;
  std::uint32_t state_ = 0;
  std::uint32_t cell_ = 0;
  std::map<std::string, std::uint32_t, std::less<>> word_numbers_;
  std::map<std::uint32_t, std::size_t> log_of_cell_;
  std::size_t last_log_ = 0;
  std::uint32_t last_cell_ = 0;
  RawRows rows_;
};

void RowReader::take_headings(const Headings& headings) {
  fields_.clear();
  stored_.clear();
  has_label_ = has_state_ = has_cell_ = false;
  for (const Column& column : headings.columns) {
    Field& field = fields_.emplace_back();
    field.role = column.role;
    field.shift = column.unit.shift;
    field.factor = column.unit.factor;
    field.offset = column.unit.offset;
    field.is_plain = column.unit.factor == 1.0 && column.unit.offset == 0.0;
    if (column.role == Role::Ignored || column.role == Role::Resistance) continue;
    if (column.role <= Role::Ambient) {
      field.deed = column.role == Role::Date ? Field::Deed::Clock : Field::Deed::Number;
      stored_.push_back(column.role);
    } else {
      field.deed = Field::Deed::Word;
      has_label_ = has_label_ || column.role == Role::Label;
      has_state_ = has_state_ || column.role == Role::State;
      has_cell_ = has_cell_ || column.role == Role::Cell;
    }
  }
  while (!fields_.empty() && fields_.back().deed == Field::Deed::Skip) fields_.pop_back();
}

bool RowReader::read() {
  const char* const begin = text_.data();
  const char* const end = begin + text_.size();
  while (at_ < text_.size()) {
    const char* const here = begin + at_;
    const char* const behind = fast_row(here, end);
    if (behind != nullptr) {
      store();
      at_ = static_cast<std::size_t>(behind - begin);
    } else {
      slow_row(next_line(text_, at_));
    }
    ++line_;
    if (month_must_lead_ && day_led_) return false;
  }
  return true;
}

/// A row of plain fields in one go; the byte behind its line end, or nullptr if it needs care.
const char* RowReader::fast_row(const char* at, const char* end) {
  const char separator = dialect_.separator;
  const auto is_blank = [separator](char c) {
    return c == ' ' || c == '\r' || (c == '\t' && separator != '\t');
  };
  if (*at == '#' || *at == '\n') return nullptr;
  const std::size_t count = fields_.size();
  for (std::size_t index = 0; index < count; ++index) {
    Field& field = fields_[index];
    while (at != end && is_blank(*at)) ++at;
    if (field.deed == Field::Deed::Number) {
      const auto slot = static_cast<std::size_t>(field.role);
      double number = no_reading;
      if (at != end && *at != separator && *at != '\n') {
        at = scan_number(at, end, fast_mark_, field.shift, number);
        if (at == nullptr) return nullptr;
        if (!field.is_plain) number = number * field.factor + field.offset;
      } else if (is_needed(field.role)) {
        return nullptr;
      }
      value_[slot] = number;
    } else if (field.deed == Field::Deed::Skip) {
      while (at != end && *at != separator && *at != '\n' && !(separator == ' ' && *at == '\t')) {
        if (*at == '"') return nullptr;
        ++at;
      }
    } else {
      at = fast_word(field, at, end);
      if (at == nullptr) return nullptr;
    }
    if (index + 1 == count) break;
    const char* const blanks = at;
    while (at != end && is_blank(*at)) ++at;
    if (at == end || *at == '\n') return nullptr;
    if (separator == ' ' ? blanks == at : *at++ != separator) return nullptr;
  }
  while (at != end && is_blank(*at)) ++at;
  if (at == end) return at;
  if (*at == '\n') return at + 1;
  if (*at != separator && separator != ' ') return nullptr;
  at = static_cast<const char*>(std::memchr(at, '\n', static_cast<std::size_t>(end - at)));
  return at == nullptr ? end : at + 1;
}

/// A word or a time of day.
const char* RowReader::fast_word(Field& field, const char* at, const char* end) {
  const char separator = dialect_.separator;
  const char* const first = at;
  while (at != end && *at != separator && *at != '\n' && !(separator == ' ' && *at == '\t')) {
    if (*at == '"') return nullptr;
    ++at;
  }
  const std::string_view text(first, static_cast<std::size_t>(at - first));
  if (field.deed == Field::Deed::Clock) return take_clock(field, text) ? at : nullptr;
  take_word(field, trimmed(text));
  return at;
}

bool RowReader::take_clock(const Field& field, std::string_view text) {
  const auto clock = read_clock(text, order_);
  if (!clock) return false;
  const bool is_first = !rows_.times_are_clock;
  rows_.times_are_clock = true;
  if (clock->month_must_lead) month_must_lead_ = true;
  if (clock->is_dated && !clock->month_must_lead && order_ == DateOrder::DayFirst) day_led_ = true;
  if (clock->is_dated && (is_first || !rows_.times_are_dated)) {
    rows_.times_are_dated = true;
    rows_.clock_of_zero_s = clock->whole_s;
  }
  if (field.role == Role::Time && !clock->is_dated) rows_.times_are_of_day = true;
  const std::int64_t since =
      clock->is_dated ? clock->whole_s - rows_.clock_of_zero_s : clock->whole_s;
  value_[static_cast<std::size_t>(field.role)] = static_cast<double>(since) + clock->fraction_s;
  return true;
}

void RowReader::take_word(Field& field, std::string_view text) {
  if (field.last.data() == nullptr || field.last != text) {
    auto known = word_numbers_.find(text);
    if (known == word_numbers_.end()) {
      known =
          word_numbers_.emplace(std::string(text), static_cast<std::uint32_t>(rows_.words.size()))
              .first;
      rows_.words.emplace_back(text);
    }
    // The map's own text stays where it is.
    field.last = known->first;
    field.word = known->second;
  }
  if (field.role == Role::Cell) cell_ = field.word;
  if (field.role == Role::Label) label_ = field.word;
  if (field.role == Role::State) state_ = field.word;
}

bool RowReader::slow_field(Field& field, std::string_view text) {
  double& value = value_[static_cast<std::size_t>(field.role)];
  if (means_no_reading(text)) {
    value = no_reading;
    return true;
  }
  if (field.role != Role::Date) {
    if (const auto number = read_number(text, dialect_.decimal, field.shift)) {
      value = *number * field.factor + field.offset;
      return std::isfinite(value);
    }
    if (field.role != Role::Time) return false;
  }
  if (!take_clock(field, text)) return false;
  field.deed = Field::Deed::Clock;
  return true;
}

bool RowReader::is_complete() const {
  const auto present = [this](Role role) {
    return !std::isnan(value_[static_cast<std::size_t>(role)]);
  };
  return std::ranges::all_of(stored_, [&](Role role) {
    return present(role) || !(is_needed(role) || role == Role::Current || role == Role::Date);
  });
}

void RowReader::slow_row(std::string_view line) {
  if (is_comment(line)) return;
  const std::vector<std::string> texts = split_fields(line, dialect_.separator);
  std::size_t bad = fields_.size();
  int good = 0;
  for (std::size_t index = 0; index < fields_.size(); ++index) {
    Field& field = fields_[index];
    if (field.deed == Field::Deed::Skip) continue;
    if (index >= texts.size()) {
      bad = std::min(bad, index);
      break;
    }
    if (field.deed == Field::Deed::Word) {
      take_word(field, texts[index]);
    } else if (!slow_field(field, texts[index])) {
      bad = std::min(bad, index);
    } else if (!means_no_reading(texts[index])) {
      ++good;
    }
  }
  if (bad == fields_.size()) {
    if (is_complete()) {
      store();
    } else {
      ++rows_.without_reading;
    }
    return;
  }
  if (take_headings_again(line)) return;
  if (good < 2) {
    if (rows_.no_samples++ == 0) rows_.first_no_sample = line_;
    return;
  }
  if (bad < texts.size()) {
    fault(line, bad, "`" + texts[bad].substr(0, 40) + "` is no number",
          "A number is expected here; the row is left out.");
  } else {
    fault(line, texts.size() - 1,
          "the row ends after " + std::to_string(texts.size()) + " of at least " +
              std::to_string(fields_.size()) + " fields",
          "The row is left out.");
  }
}

bool RowReader::take_headings_again(std::string_view line) {
  std::vector<Column> columns = headings_in(line, dialect_.separator);
  Headings headings = choose_columns(columns);
  if (!headings.make_a_log()) return false;
  std::size_t at = at_;
  if (at < text_.size() &&
      take_units(columns, split_fields(next_line(text_, at), dialect_.separator))) {
    headings = choose_columns(columns);
    at_ = at;
    ++line_;
  }
  take_headings(headings);
  headings_new_ = true;
  return true;
}

void RowReader::fault(std::string_view line, std::size_t index, std::string text,
                      std::string remedy) {
  if (rows_.problem_count++ >= problems_told) return;
  base::Problem problem{{}, std::move(text), std::move(remedy)};
  problem.place.file = file_;
  problem.place.line = line_;
  problem.place.column = column_of_field(line, dialect_.separator, index);
  problem.place.excerpt = std::string(line.substr(0, 200));
  rows_.problems.push_back(std::move(problem));
}

RawLog& RowReader::log_of_row() {
  if (!has_cell_) cell_ = std::numeric_limits<std::uint32_t>::max();
  if (!rows_.logs.empty() && cell_ == last_cell_) return rows_.logs[last_log_];
  auto known = log_of_cell_.find(cell_);
  if (known == log_of_cell_.end() && rows_.logs.size() < cells_at_most) {
    RawLog& log = rows_.logs.emplace_back();
    if (has_cell_) log.cell = rows_.words[cell_];
    known = log_of_cell_.emplace(cell_, rows_.logs.size() - 1).first;
    // A row of a logger is rarely shorter than this; what is not used is given back.
    const std::size_t room = rows_.logs.size() == 1 ? (text_.size() - at_) / 32 + 1 : 0;
    for (const Role role : stored_) log.of(role).reserve(room);
  }
  last_cell_ = cell_;
  last_log_ = known == log_of_cell_.end() ? 0 : known->second;
  return rows_.logs[last_log_];
}

void RowReader::store() {
  RawLog& log = log_of_row();
  const std::size_t row = log.size();
  if (log.lines.empty() ||
      log.lines.back().line + static_cast<int>(row - log.lines.back().row) != line_)
    log.lines.push_back({row, line_});
  if (headings_new_ && row > 0) log.headings_again.push_back(row);
  headings_new_ = false;
  for (const Role role : stored_) {
    std::vector<double>& column = log.of(role);
    if (column.size() < row) column.resize(row, no_reading);
    column.push_back(value_[static_cast<std::size_t>(role)]);
  }
  if (has_label_) {
    log.label.resize(row, label_);
    log.label.push_back(label_);
  }
  if (has_state_) {
    log.state.resize(row, state_);
    log.state.push_back(state_);
  }
}

RawRows RowReader::take() {
  for (RawLog& log : rows_.logs) {
    const std::size_t size = log.size();
    for (std::vector<double>& column : log.columns_si) {
      if (!column.empty()) column.resize(size, no_reading);
    }
    if (!log.label.empty()) log.label.resize(size, log.label.back());
    if (!log.state.empty()) log.state.resize(size, log.state.back());
  }
  return std::move(rows_);
}

}  // namespace

int RawLog::line_of(std::size_t row) const {
  auto above = std::ranges::upper_bound(lines, row, {}, &LineMark::row);
  if (above == lines.begin()) return 0;
  --above;
  return above->line + static_cast<int>(row - above->row);
}

RawRows read_rows(std::string_view text, const LogText& found, const std::string& file) {
  RowReader reader(text, found, file, DateOrder::DayFirst);
  const bool is_read = reader.read();
  if (is_read) return reader.take();
  RowReader again(text, found, file, DateOrder::MonthFirst);
  static_cast<void>(again.read());
  return again.take();
}

}  // namespace tideover::cell
