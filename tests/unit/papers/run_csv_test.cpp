#include "papers/run_csv.hpp"

#include <charconv>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "support/hut.hpp"

using namespace tideover;

namespace {

using Rows = std::vector<std::vector<std::string>>;

// RFC 4180 read back: records end with CRLF, quotes double inside quotes.
Rows read_csv(const std::string& text) {
  Rows rows(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t k = 0; k < text.size(); ++k) {
    std::string& cell = rows.back().back();
    if (quoted) {
      if (text[k] != '"')
        cell += text[k];
      else if (k + 1 < text.size() && text[k + 1] == '"')
        cell += text[++k];
      else
        quoted = false;
    } else if (text[k] == '"') {
      quoted = true;
    } else if (text[k] == ',') {
      rows.back().emplace_back();
    } else if (text[k] == '\r' && k + 1 < text.size() && text[k + 1] == '\n') {
      ++k;
      rows.emplace_back(1);
    } else {
      cell += text[k];
    }
  }
  rows.pop_back();
  return rows;
}

double number(const std::string& text) {
  double value = 0.0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
  REQUIRE(end.ec == std::errc{});
  REQUIRE(end.ptr == text.data() + text.size());
  return value;
}

}  // namespace

TEST_CASE("a run reads back from its table, units in the heads") {
  const run::Record record = test::HutRun().record();
  const Rows rows = read_csv(papers::run_csv(record));
  REQUIRE(rows.size() == 1 + record.instants.size());
  CHECK(rows[0][0] == "time [s]");
  CHECK(rows[0][1] == "sea input voltage [V]");
  CHECK(rows[0][7] == "mains24 share of rating [%]");
  CHECK(rows[0][10] == "pack energy left [Wh]");
  CHECK(rows[0][11] == "pack cell temperature [degC]");
  for (std::size_t k = 0; k < record.instants.size(); ++k) {
    REQUIRE(rows[k + 1].size() == 1 + record.channels.size());
    CHECK(number(rows[k + 1][0]) == record.instants[k].si());
    CHECK(number(rows[k + 1][1]) == doctest::Approx(record.samples_si[0][k]).epsilon(1e-6));
    CHECK(number(rows[k + 1][10]) ==
          doctest::Approx(record.samples_si[9][k] / 3600.0).epsilon(1e-6));
    CHECK(number(rows[k + 1][11]) ==
          doctest::Approx(record.samples_si[10][k] - 273.15).epsilon(1e-6));
  }
}

TEST_CASE("a name with commas and quotes keeps its column") {
  run::Record record;
  record.channels = {{"a,\"b\"", "voltage", quantity::Volt::dimension}};
  record.instants = {quantity::Second::of_si(0.0)};
  record.samples_si = {{1.0}};
  const Rows rows = read_csv(papers::run_csv(record));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0] == std::vector<std::string>{"time [s]", "a,\"b\" voltage [V]"});
}

TEST_CASE("a run without samples is a head alone") { CHECK(papers::run_csv({}) == "time [s]\r\n"); }
