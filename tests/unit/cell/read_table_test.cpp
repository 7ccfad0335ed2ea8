#include "cell/read_table.hpp"

#include <string>

#include <doctest/doctest.h>

using namespace tideover;
using cell::TableReading;

namespace {

constexpr int march = 19783;      // 2024-03-01
constexpr int september = 19967;  // 2024-09-01

}  // namespace

TEST_CASE("given a table typed by hand, then units may stand in headings or fields") {
  const std::string text =
      "# found in the shed\n"
      "cell; capacity (mAh); resistance; rest voltage (V); date\n"
      "A1; 2810; 38 mOhm; 3,982; 2024-03-01\n"
      "A2; 2,75 Ah +/- 1 %; 0,041 Ohm; 3,975; 01.03.2024\n"
      "A3; ; m; 3,9; 2024-03-01\n";
  CHECK(cell::is_table(text));
  const TableReading table = cell::read_table(text, "cells/lot.csv");
  REQUIRE(table.cells.size() == 3);
  const cell::TestedCell& first = table.cells[0];
  CHECK(first.name == "A1");
  CHECK(first.line == 3);
  CHECK(first.file == "cells/lot.csv");
  REQUIRE(first.capacity);
  CHECK(first.capacity->si() == doctest::Approx(2.81 * 3600.0));
  CHECK(first.capacity->origin == quantity::Origin::Measured);
  CHECK(first.capacity->given);
  CHECK(first.capacity->source == "cells/lot.csv, line 3");
  CHECK(first.resistance->si() == doctest::Approx(0.038));
  REQUIRE(first.rest_voltages.size() == 1);
  CHECK(first.rest_voltages[0].voltage.si() == 3.982);
  CHECK(first.rest_voltages[0].day == march);
  CHECK(table.cells[1].capacity->low().si() == doctest::Approx(0.99 * 2.75 * 3600.0));
  CHECK(table.cells[1].resistance->si() == doctest::Approx(0.041));
  CHECK(table.cells[1].rest_voltages[0].day == march);
  CHECK_FALSE(table.cells[2].capacity.has_value());
  CHECK(table.cells[2].rest_voltages.size() == 1);
  REQUIRE(table.problems.size() == 1);
  CHECK(table.problems[0].place.line == 5);
  CHECK(table.problems[0].place.column == 7);
}

TEST_CASE("voltages months apart stand in rows of their own or in columns with a date") {
  const TableReading rows = cell::read_table(
      "cell,capacity (mAh),rest voltage (V),date\nA1,2810,3.96,2024-09-01\nA1,,3.98,2024-03-01\n",
      "x.csv");
  REQUIRE(rows.cells.size() == 1);
  REQUIRE(rows.cells[0].rest_voltages.size() == 2);
  CHECK(rows.cells[0].rest_voltages[0].day == march);
  CHECK(rows.cells[0].rest_voltages[1].day == september);
  CHECK(rows.cells[0].rest_voltages[1].voltage.si() == 3.96);
  const TableReading columns =
      cell::read_table("cell,mAh,U 2024-03-01 (V),U 2024-09-01 (V)\nA1,2810,3.98,3.96\n", "x.csv");
  REQUIRE(columns.cells.size() == 1);
  REQUIRE(columns.cells[0].rest_voltages.size() == 2);
  CHECK(columns.cells[0].rest_voltages[1].day == september);
  const TableReading pairs = cell::read_table(
      "cell,date,V,date,V\nA1,3/1/2024,3.98,9/1/2024,3.96\nA2,3/13/2024,3.9,9/1/2024,3.8\n",
      "x.csv");
  REQUIRE(pairs.cells.size() == 2);
  REQUIRE(pairs.cells[0].rest_voltages.size() == 2);
  CHECK(pairs.cells[0].rest_voltages[0].day == march);
  CHECK(pairs.cells[0].rest_voltages[1].voltage.si() == 3.96);
}

TEST_CASE("numbers without any unit are taken by their size, and it is said") {
  const TableReading table = cell::read_table(
      "cell,capacity,resistance,voltage\nA1,2810,38,3.98\nA2,2750,41,3.97\n", "x.csv");
  REQUIRE(table.cells.size() == 2);
  CHECK(table.cells[0].capacity->si() == doctest::Approx(2.81 * 3600.0));
  CHECK(table.cells[0].resistance->si() == doctest::Approx(0.038));
  REQUIRE(table.remarks.size() == 3);
  CHECK(table.remarks[0].text == "`capacity` without a unit: taken for mAh, by its size");
  CHECK_FALSE(table.cells[0].rest_voltages[0].day.has_value());
}

TEST_CASE("what cannot be is refused, its row's other values stand") {
  const TableReading table = cell::read_table(
      "cell,capacity (Ah),IR (mOhm),V,date\nA1,2810,38,3.98,2024-03-01\nA2,2.8,-3,398,soon\n"
      ",1,2,3,\nA3,2.8 V,30,3.9,2024-03-01\n",
      "x.csv");
  REQUIRE(table.cells.size() == 3);
  CHECK_FALSE(table.cells[0].capacity.has_value());
  CHECK(table.cells[0].resistance.has_value());
  CHECK(table.cells[1].capacity.has_value());
  CHECK_FALSE(table.cells[1].resistance.has_value());
  CHECK(table.cells[1].rest_voltages.empty());
  REQUIRE(table.problems.size() == 5);
  CHECK(table.problems[0].text == "a capacity of 2810 Ah is no cell's");
  CHECK(table.problems[3].text == "no name of a cell");
  CHECK(table.problems[4].text == "`2.8 V` is no capacity");
  for (const base::Problem& problem : table.problems) {
    CHECK(problem.place.line > 1);
    CHECK_FALSE(problem.remedy.empty());
  }
}

TEST_CASE("a log is no table, and a file of neither is refused with what to do") {
  CHECK_FALSE(cell::is_table("t_s,cell,v_V,i_A\n0,A1,3.7,0\n"));
  CHECK_FALSE(cell::is_table(""));
  const TableReading nothing = cell::read_table("hello\n", "x.csv");
  CHECK(nothing.cells.empty());
  REQUIRE(nothing.problems.size() == 1);
  CHECK_FALSE(nothing.problems[0].remedy.empty());
}
