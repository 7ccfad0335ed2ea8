/// Cells from the shelf, measured tables, and simple sources to work a pack with.
#pragma once

#include <charconv>
#include <fstream>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <doctest/doctest.h>

#include "network/law.hpp"
#include "numeric/smooth.hpp"
#include "part/pack/pack.hpp"
#include "shelf/shelf.hpp"
#include "support/places.hpp"

namespace tideover::tests {

[[nodiscard]] inline part::Cell shelf_cell(std::string_view name) {
  const base::TomlNode* row = shelf::built_in_shelf().find_row("cell", name);
  REQUIRE_MESSAGE(row != nullptr, std::string(name));
  part::Cell cell;
  part::Findings findings;
  part::FieldReader reader(shelf::built_in_shelf(), findings, true);
  CHECK(reader.read_row(*row, cell));
  for (const auto& problem : findings.form) MESSAGE(base::show(problem));
  for (const auto& problem : findings.sense) MESSAGE(base::show(problem));
  return cell;
}

/// A row of a table of data/measured: column -> text.
using MeasuredRow = std::map<std::string, std::string, std::less<>>;

[[nodiscard]] inline std::vector<std::string> cells_of_line(const std::string& line) {
  std::vector<std::string> cells;
  std::size_t from = 0;
  while (from <= line.size()) {
    const std::size_t to = std::min(line.find(',', from), line.size());
    cells.push_back(line.substr(from, to - from));
    from = to + 1;
  }
  return cells;
}

[[nodiscard]] inline std::vector<MeasuredRow> measured(const std::string& file) {
  std::ifstream in(test::source_dir() / "data" / "measured" / file);
  REQUIRE_MESSAGE(in.good(), file);
  std::vector<std::string> heads;
  std::vector<MeasuredRow> rows;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() == '#') continue;
    const auto cells = cells_of_line(line);
    if (heads.empty()) {
      heads = cells;
      continue;
    }
    MeasuredRow row;
    for (std::size_t k = 0; k < heads.size(); ++k) row[heads[k]] = cells[k];
    rows.push_back(std::move(row));
  }
  return rows;
}

[[nodiscard]] inline double number(const MeasuredRow& row, std::string_view column) {
  const std::string& text = row.find(column)->second;
  double value = 0.0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

/// Takes a constant current out of its first port, whatever the voltage.
struct ConstantCurrent {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double current_a = 0.0;
  template <class Real>
  void equations(const Real*, const Real*, Real* flow, Real*) const {
    flow[0] = Real(current_a);
    flow[1] = Real(-current_a);
  }
  void ledger(const double* u, const double*, network::Ledger& books) const {
    books.served_w += (u[0] - u[1]) * current_a;
  }
};

/// A bench supply: constant voltage behind 10 mOhm, with a current limit; gives, never takes.
struct ChargingSupply {
  static constexpr int ports = 2;
  static constexpr int states = 0;
  double set_v = 0.0;
  double limit_a = 1.0;
  double on = 1.0;  ///< 1 plugged in, 0 not
  template <class Real>
  void equations(const Real* u, const Real*, Real* flow, Real*) const {
    const Real wanted = (set_v - (u[0] - u[1])) * 100.0;
    const Real given =
        numeric::smooth_positive(numeric::smooth_min(wanted, Real(limit_a), 0.1 * limit_a), 0.001);
    flow[0] = -on * given;
    flow[1] = on * given;
  }
  void ledger(const double*, const double*, network::Ledger&) const {}
};

}  // namespace tideover::tests
