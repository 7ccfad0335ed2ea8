#include "cell/log_clock.hpp"

#include <chrono>

#include "cell/log_fields.hpp"

namespace tideover::cell {
namespace {

/// Walks over the digits and marks of one field.
class Walk {
 public:
  explicit Walk(std::string_view text) : text_(text) {}

  [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
  [[nodiscard]] char here() const { return at_end() ? '\0' : text_[at_]; }
  [[nodiscard]] std::size_t mark() const { return at_; }
  void go_back(std::size_t mark) { at_ = mark; }

  bool take(char c) {
    if (here() != c) return false;
    ++at_;
    return true;
  }
  bool take_blanks() {
    const std::size_t before = at_;
    while (here() == ' ' || here() == '\t') ++at_;
    return at_ > before;
  }
  bool take_word(std::string_view lower) {
    if (text_.size() - at_ < lower.size()) return false;
    for (std::size_t i = 0; i < lower.size(); ++i) {
      if ((text_[at_ + i] | 0x20) != lower[i]) return false;
    }
    at_ += lower.size();
    return true;
  }
  /// A run of up to nine digits; `digits` says how many.
  bool take_number(int& number, int& digits) {
    number = 0;
    digits = 0;
    while (here() >= '0' && here() <= '9') {
      if (++digits > 9) return false;
      number = number * 10 + (here() - '0');
      ++at_;
    }
    return digits > 0;
  }
  /// Decimals behind a point or a comma, if any.
  double take_fraction() {
    if (here() != '.' && here() != ',') return 0.0;
    const std::size_t before = at_++;
    double mantissa = 0.0;
    double scale = 1.0;
    while (here() >= '0' && here() <= '9') {
      if (scale < 1e15) {
        mantissa = mantissa * 10.0 + (here() - '0');
        scale *= 10.0;
      }
      ++at_;
    }
    if (at_ == before + 1) at_ = before;
    return mantissa / scale;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

struct Date {
  int year = 0;
  int month = 0;
  int day = 0;
  bool month_must_lead = false;
};

/// Three numbers with the same mark between them: 2024-03-01, 01.03.2024, 3/1/2024.
std::optional<Date> take_date(Walk& walk, DateOrder order) {
  const std::size_t start = walk.mark();
  int a = 0, b = 0, c = 0;
  int a_digits = 0, b_digits = 0, c_digits = 0;
  const auto fail = [&]() -> std::optional<Date> {
    walk.go_back(start);
    return std::nullopt;
  };
  if (!walk.take_number(a, a_digits)) return fail();
  const char mark = walk.here();
  if (mark != '-' && mark != '/' && mark != '.') return fail();
  walk.take(mark);
  if (!walk.take_number(b, b_digits) || !walk.take(mark) || !walk.take_number(c, c_digits))
    return fail();
  if (a_digits == 4 && c_digits <= 2) return Date{a, b, c};
  if (c_digits != 4 && c_digits != 2) return fail();
  if (a_digits > 2 || b_digits > 2) return fail();
  const int year = c_digits == 2 ? 2000 + c : c;
  if (mark != '/') return Date{year, b, a};
  if (b > 12) return Date{year, a, b, true};
  if (order == DateOrder::MonthFirst && a <= 12) return Date{year, a, b};
  return Date{year, b, a};
}

/// Days before a time of day: `2d 04:05:06`, `2 04:05:06`, `2.04:05:06`, `2-04:05:06`.
int take_days(Walk& walk) {
  const std::size_t start = walk.mark();
  int days = 0;
  int digits = 0;
  if (walk.take_number(days, digits)) {
    const bool has_blank = walk.take_blanks();
    const bool has_letter = walk.take('d') || walk.take('D');
    if (has_letter) {
      static_cast<void>(walk.take_word("ays") || walk.take_word("ay"));
      static_cast<void>(walk.take(','));
    }
    const bool has_mark = walk.take_blanks() || has_blank || walk.take('.') || walk.take('-');
    if ((has_letter || has_mark) && walk.here() >= '0' && walk.here() <= '9') return days;
  }
  walk.go_back(start);
  return 0;
}

/// h:min or h:min:s with decimals, and AM or PM behind them.
bool take_time(Walk& walk, ClockTime& time) {
  int hours = 0, minutes = 0, seconds = 0;
  int digits = 0;
  if (!walk.take_number(hours, digits) || digits > 6 || !walk.take(':')) return false;
  if (!walk.take_number(minutes, digits) || minutes > 59) return false;
  if (walk.take(':') && (!walk.take_number(seconds, digits) || seconds > 60)) return false;
  time.fraction_s = walk.take_fraction();
  const std::size_t behind = walk.mark();
  walk.take_blanks();
  if (walk.take_word("pm") || walk.take_word("p.m.")) {
    if (hours > 12) return false;
    if (hours != 12) hours += 12;
  } else if (walk.take_word("am") || walk.take_word("a.m.")) {
    if (hours > 12) return false;
    if (hours == 12) hours = 0;
  } else {
    walk.go_back(behind);
  }
  time.whole_s += std::int64_t{3600} * hours + 60 * minutes + seconds;
  time.has_time = true;
  return true;
}

/// `Z`, `+01:00`, `+0100`, `-05`, taken off.
bool take_offset(Walk& walk, ClockTime& time) {
  walk.take_blanks();
  if (walk.take('Z') || walk.take('z') || walk.take_word("utc")) return true;
  const bool is_east = walk.here() == '+';
  if (!is_east && walk.here() != '-') return walk.at_end();
  walk.take(walk.here());
  int hours = 0, minutes = 0, digits = 0;
  if (!walk.take_number(hours, digits)) return false;
  if (digits == 4) {
    minutes = hours % 100;
    hours /= 100;
  } else if (digits == 2) {
    int ignored = 0;
    if (walk.take(':') && !walk.take_number(minutes, ignored)) return false;
  } else {
    return false;
  }
  if (hours > 14 || minutes > 59) return false;
  time.whole_s -= (is_east ? 1 : -1) * (3600 * hours + 60 * minutes);
  return true;
}

}  // namespace

std::optional<std::int64_t> days_since_1970(int year, int month, int day) {
  if (year < 1 || year > 9999 || month < 1 || month > 12 || day < 1 || day > 31)
    return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date).time_since_epoch().count();
}

std::optional<ClockTime> read_clock(std::string_view field, DateOrder order) {
  Walk walk(trimmed(field));
  ClockTime time;
  if (const std::optional<Date> date = take_date(walk, order)) {
    const auto days = days_since_1970(date->year, date->month, date->day);
    if (!days) return std::nullopt;
    time.whole_s = *days * 86400;
    time.is_dated = true;
    time.month_must_lead = date->month_must_lead;
    if (walk.at_end()) return time;
    static_cast<void>(walk.take('T') || walk.take('t') || walk.take(','));
    walk.take_blanks();
  } else {
    time.whole_s = std::int64_t{86400} * take_days(walk);
  }
  if (!take_time(walk, time)) return std::nullopt;
  if (time.is_dated ? !take_offset(walk, time) : false) return std::nullopt;
  if (!walk.at_end()) return std::nullopt;
  return time;
}

}  // namespace tideover::cell
