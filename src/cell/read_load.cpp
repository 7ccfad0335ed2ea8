#include "cell/read_load.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

#include "base/text.hpp"
#include "cell/log_fields.hpp"

namespace tideover::cell {

namespace {

constexpr std::size_t most_problems = 20;

std::optional<double> number_in(const std::string& field) {
  double number = 0.0;
  const char* const end = field.data() + field.size();
  const auto [at, error] = std::from_chars(field.data(), end, number);
  if (error != std::errc{} || at != end || !std::isfinite(number)) return std::nullopt;
  return number;
}

class LoadReader {
 public:
  explicit LoadReader(const std::string& file) : file_(file) {}

  base::Result<LoadProfile> read(std::string_view text) {
    for (std::size_t at = 0; at < text.size() && problems_.size() < most_problems;) {
      const std::string_view line = next_line(text, at);
      ++line_;
      if (is_comment(line)) continue;
      const char separator = line.find(';') != std::string_view::npos    ? ';'
                             : line.find(',') != std::string_view::npos  ? ','
                             : line.find('\t') != std::string_view::npos ? '\t'
                                                                         : ' ';
      const auto fields = split_fields(line, separator);
      has_heading_ ? take_row(line, separator, fields) : take_heading(line, fields);
    }
    if (problems_.empty() && load_.until_s.empty()) {
      tell({}, 1, "there is no load in this file",
           "Write the headings `t_s,p_W` or `t_s,i_A` and a row for each change.");
    }
    if (!problems_.empty()) return problems_;
    return std::move(load_);
  }

 private:
  void tell(std::string_view line, int column, std::string text, std::string remedy) {
    base::Problem problem{{}, std::move(text), std::move(remedy)};
    problem.place = {file_, line_, column, 1, std::string(line)};
    problems_.push_back(std::move(problem));
  }

  void take_heading(std::string_view line, const std::vector<std::string>& fields) {
    has_heading_ = true;
    const auto column = [&](std::string_view name) {
      const auto at = std::ranges::find_if(
          fields, [&](const std::string& field) { return base::lower_case(field) == name; });
      return at == fields.end() ? -1 : static_cast<int>(at - fields.begin());
    };
    time_ = column("t_s");
    amount_ = column("p_w");
    if (amount_ < 0) {
      amount_ = column("i_a");
      load_.of = LoadProfile::Of::Current;
    }
    if (time_ < 0 || amount_ < 0) {
      tell(line, 1, "the headings name no load", "Expected `t_s` and `p_W` or `i_A`.");
    }
  }

  void take_row(std::string_view line, char separator, const std::vector<std::string>& fields) {
    if (time_ < 0 || amount_ < 0) return;
    const auto needed = static_cast<std::size_t>(std::max(time_, amount_));
    if (fields.size() <= needed) {
      tell(line, 1, "the row has too few fields", "Expected a time and an amount.");
      return;
    }
    const auto time_s = number_in(fields[static_cast<std::size_t>(time_)]);
    const auto amount = number_in(fields[static_cast<std::size_t>(amount_)]);
    if (!time_s || !amount) {
      const int wrong = time_s ? amount_ : time_;
      tell(line, column_of_field(line, separator, static_cast<std::size_t>(wrong)),
           "this is no number", "Write it with a decimal point and without a unit.");
      return;
    }
    const double before_s = load_.until_s.empty() ? 0.0 : load_.until_s.back();
    // A row at 0 says what flows before anything does: it lasts for no time.
    if (*time_s == 0.0 && load_.until_s.empty()) return;
    if (*time_s <= before_s) {
      tell(line, column_of_field(line, separator, static_cast<std::size_t>(time_)),
           "the time does not rise", "Rows stand in order of time.");
      return;
    }
    load_.until_s.push_back(*time_s);
    load_.amount.push_back(*amount);
  }

  const std::string& file_;
  int line_ = 0;
  bool has_heading_ = false;
  int time_ = -1;
  int amount_ = -1;
  LoadProfile load_;
  base::Problems problems_;
};

}  // namespace

base::Result<LoadProfile> read_load(std::string_view text, const std::string& file) {
  return LoadReader(file).read(text);
}

}  // namespace tideover::cell
