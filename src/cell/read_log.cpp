#include "cell/read_log.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/file.hpp"
#include "cell/log_judgement.hpp"
#include "cell/log_rows.hpp"
#include "cell/log_text.hpp"

namespace tideover::cell {
namespace {

base::Problem of_file(const std::string& file, std::string text, std::string remedy) {
  base::Problem problem{{}, std::move(text), std::move(remedy)};
  problem.place.file = file;
  return problem;
}

std::string_view name_of(Role role) {
  constexpr std::array<std::pair<Role, std::string_view>, 14> names{{
      {Role::Time, "time"},
      {Role::Date, "date"},
      {Role::Voltage, "voltage"},
      {Role::Current, "current"},
      {Role::ChargeCurrent, "charge current"},
      {Role::DischargeCurrent, "discharge current"},
      {Role::Counter, "counter"},
      {Role::ChargeCounter, "charge counter"},
      {Role::DischargeCounter, "discharge counter"},
      {Role::Temperature, "temperature"},
      {Role::Ambient, "air"},
      {Role::State, "state"},
      {Role::Label, "run"},
      {Role::Cell, "cell"},
  }};
  const auto* const found =
      std::ranges::find(names, role, [](const auto& entry) { return entry.first; });
  return found == names.end() ? std::string_view{} : found->second;
}

/// "time `t_s`, voltage `v_V`; not used: `p_W`".
std::string columns_in_words(const Headings& headings) {
  std::string used;
  std::string unused;
  for (const Column& column : headings.columns) {
    const std::string_view name = name_of(column.role);
    std::string& list = name.empty() ? unused : used;
    if (!list.empty()) list += ", ";
    if (!name.empty()) list += std::string(name) + ' ';
    list += '`' + column.heading + '`';
  }
  return used + (unused.empty() ? "" : "; not used: " + unused);
}

std::string dialect_in_words(const Dialect& dialect) {
  std::string text;
  if (dialect.separator == ';') text = "semicolons";
  if (dialect.separator == '\t') text = "tabs";
  if (dialect.separator == ' ') text = "blanks";
  if (dialect.separator == '|') text = "vertical bars";
  if (dialect.separator == ',') text = "commas";
  text += " between fields";
  if (dialect.decimal == ',') text += ", decimal comma";
  return text;
}

void say_rows(const LogText& found, const RawRows& rows, LogReading& reading) {
  const auto say = [&](int line, std::string text) {
    reading.remarks.push_back({{}, line, std::move(text)});
  };
  say(found.heading_line, "columns: " + columns_in_words(found.headings));
  say(found.heading_line, dialect_in_words(found.dialect));
  if (found.passed_over > 0)
    say(1, std::to_string(found.passed_over) + " lines before the headings passed over");
  if (rows.without_reading > 0)
    say(0, std::to_string(rows.without_reading) + " rows without a reading left out");
  if (rows.no_samples > 0)
    say(rows.first_no_sample,
        std::to_string(rows.no_samples) + " lines that are no samples passed over");
}

/// Why there are no headings: the nearest that can be said.
base::Problem no_headings(const std::string& file) {
  return of_file(file, "no line names a time, a voltage and a current",
                 "Put headings with units above the columns, such as `t_s,v_V,i_A` or "
                 "`Time (s);Voltage (V);Current (A)`.");
}

}  // namespace

LogReading read_log(std::string_view bytes, const std::string& file) {
  LogReading reading;
  std::string kept;
  const auto text = plain_text(bytes, kept);
  if (!text) {
    reading.problems.push_back(
        of_file(file, "the file is no plain text, or UTF-16", "Save it as text in UTF-8 (CSV)."));
    return reading;
  }
  const auto found = find_headings(*text, Kind::Log);
  if (!found) {
    reading.problems.push_back(no_headings(file));
    return reading;
  }
  RawRows rows = read_rows(*text, *found, file);
  say_rows(*found, rows, reading);
  reading.problems = std::move(rows.problems);
  if (rows.problem_count > static_cast<int>(reading.problems.size()))
    reading.problems.push_back(
        of_file(file, std::to_string(rows.problem_count) + " rows in all could not be read", ""));
  if (rows.logs.empty()) {
    base::Problem problem = of_file(file, "no samples below the headings", "");
    problem.place.line = found->heading_line;
    reading.problems.push_back(std::move(problem));
  }
  const FileFacts facts{*found, rows, file};
  reading.logs.reserve(rows.logs.size());
  for (RawLog& raw : rows.logs) reading.logs.push_back(judge_log(raw, facts, reading.remarks));
  return reading;
}

LogReading read_log_file(const std::filesystem::path& path) {
  auto text = base::read_file(path, largest_log_bytes);
  if (!text) return {{}, {}, text.problems()};
  return read_log(text.value(), path.string());
}

}  // namespace tideover::cell
