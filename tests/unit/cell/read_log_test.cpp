#include "cell/read_log.hpp"

#include <algorithm>
#include <string>

#include <doctest/doctest.h>

using namespace tideover;
using cell::Log;
using cell::LogReading;
using cell::Section;

namespace {

bool says(const LogReading& reading, std::string_view words) {
  return std::ranges::any_of(reading.remarks, [words](const cell::Remark& remark) {
    return remark.text.find(words) != std::string::npos;
  });
}

/// The log of a text that holds one cell and no problem.
Log only_log(const std::string& text) {
  LogReading reading = cell::read_log(text, "lot/B2.csv");
  CHECK(base::show(reading.problems).empty());
  REQUIRE(reading.logs.size() == 1);
  return reading.logs.front();
}

}  // namespace

TEST_CASE("given charge and discharge in columns of their own, then one signed current comes out") {
  const Log log = only_log(
      "Time (s),Voltage (V),Charge current (A),Discharge current (A),Charge capacity (mAh),"
      "Discharge capacity (mAh)\n"
      "0,3.70,,,0,0\n10,3.60,,1.5,0,4.1667\n20,3.59,,1.5,0,8.3333\n30,3.70,0,0,0,8.3333\n"
      "40,3.80,1.5,,4.1667,8.3333\n");
  CHECK(log.current_a == std::vector<double>{0.0, -1.5, -1.5, 0.0, 1.5});
  REQUIRE(log.counter_c.size() == 5);
  CHECK(log.counter_c[2] == doctest::Approx(-30.0).epsilon(1e-4));
  CHECK(log.counter_c[4] == doctest::Approx(-15.0).epsilon(1e-4));
}

TEST_CASE("given a column of states and an unsigned current, then the states give the direction") {
  for (const char* words :
       {"Rest DChg Chg", "R D C", "pause discharging charging", "idle CC_DChg CC_CV_Chg"}) {
    CAPTURE(words);
    const std::string text(words);
    const std::size_t a = text.find(' ');
    const std::size_t b = text.find(' ', a + 1);
    const std::string rest = text.substr(0, a);
    const std::string out = text.substr(a + 1, b - a - 1);
    const std::string in = text.substr(b + 1);
    const Log log =
        only_log("t_s,State,v_V,i_A\n0," + rest + ",3.7,0\n10," + out + ",3.6,1\n20," + out +
                 ",3.59,1\n30," + rest + ",3.7,0\n40," + in + ",3.8,1\n50," + in + ",3.81,1\n");
    CHECK(log.current_a == std::vector<double>{0.0, -1.0, -1.0, 0.0, 1.0, 1.0});
    CHECK(log.sections.size() == 1);
  }
}

TEST_CASE("given an unsigned current and no states, then the voltage tells each stretch") {
  const LogReading reading = cell::read_log(
      "t_s,v_V,i_A\n0,3.7,0\n10,3.6,1\n20,3.59,1\n30,3.7,0\n40,3.8,1\n50,3.81,1\n", "x.csv");
  REQUIRE(reading.logs.size() == 1);
  CHECK(reading.logs[0].current_a == std::vector<double>{0.0, -1.0, -1.0, 0.0, 1.0, 1.0});
  CHECK(says(reading, "the current has no sign"));
}

TEST_CASE(
    "given a comment that contradicts the voltage, then the voltage is believed and it is said") {
  const LogReading reading = cell::read_log(
      "# sign: current positive = charge\nt_s,v_V,i_A\n0,3.7,0\n10,3.6,1\n20,3.59,1\n30,3.7,0\n",
      "x.csv");
  REQUIRE(reading.logs.size() == 1);
  CHECK(reading.logs[0].current_a[1] == -1.0);
  CHECK(says(reading, "the file's own words say the opposite"));
}

TEST_CASE("given several cells in one file, then each has its log, however the rows lie") {
  const LogReading reading = cell::read_log(
      "t_s,cell,v_V,i_A\n0,A1,3.7,0\n0,A2,3.8,0\n10,A1,3.6,-1\n10,A2,3.7,-1\n20,A1,3.59,-1\n"
      "20,A2,3.69,-1\n",
      "x.csv");
  REQUIRE(reading.logs.size() == 2);
  CHECK(reading.logs[0].cell == "A1");
  CHECK(reading.logs[1].cell == "A2");
  CHECK(reading.logs[1].voltage_v == std::vector<double>{3.8, 3.7, 3.69});
  CHECK(reading.logs[1].sections.front().line == 3);
}

TEST_CASE("sections begin where time goes back, headings stand again or a run has another name") {
  const Log log = only_log(
      "run,t_s,v_V,i_A\nfirst,0,3.7,0\nfirst,10,3.6,-1\nsecond,20,3.7,0\nsecond,30,3.6,-1\n"
      "run,t_s,v_V,i_A\nsecond,40,3.7,0\nsecond,50,3.6,-1\nsecond,5,3.7,0\nsecond,15,3.6,-1\n");
  REQUIRE(log.sections.size() == 4);
  CHECK(log.sections[0].begins == Section::Begins::Log);
  CHECK(log.sections[0].label == "first");
  CHECK(log.sections[1].begins == Section::Begins::Label);
  CHECK(log.sections[1].label == "second");
  CHECK(log.sections[2].begins == Section::Begins::Heading);
  CHECK(log.sections[2].line == 7);
  CHECK(log.sections[3].begins == Section::Begins::Reset);
  CHECK(log.sections[3].first == 6);
  CHECK(log.sections[3].end == 8);
}

TEST_CASE("headings that stand again in another order and unit are obeyed") {
  const Log log = only_log(
      "t_s,v_V,i_A\n0,3.7,0\n10,3.6,-1\nVoltage (mV);x\ni_A,t_s,mV\n0,20,3700\n-1,30,3600\n");
  CHECK(log.time_s == std::vector<double>{0.0, 10.0, 20.0, 30.0});
  CHECK(log.voltage_v == std::vector<double>{3.7, 3.6, 3.7, 3.6});
  CHECK(log.current_a == std::vector<double>{0.0, -1.0, 0.0, -1.0});
}

TEST_CASE(
    "a gap in which the counter went on begins a section, one that the current explains not") {
  std::string text = "t_s,v_V,i_A,q_Ah\n";
  double q_ah = 0.0;
  const auto row = [&](int t_s, const char* rest) {
    text += std::to_string(t_s) + ',' + rest + ',' + std::to_string(q_ah) + '\n';
  };
  for (int t_s = 0; t_s < 100; t_s += 10, q_ah -= 10.0 / 3600.0) row(t_s, "3.60,-1");
  q_ah -= 190.0 / 3600.0;  // 200 s at 1 A unseen, but explained
  for (int t_s = 290; t_s < 400; t_s += 10, q_ah -= 10.0 / 3600.0) row(t_s, "3.55,-1");
  for (int t_s = 400; t_s < 500; t_s += 10) row(t_s, "3.65,0");
  q_ah -= 0.2;
  for (int t_s = 2000; t_s < 2100; t_s += 10) row(t_s, "3.40,0");
  const Log log = only_log(text);
  REQUIRE(log.sections.size() == 2);
  const Section& behind = log.sections[1];
  CHECK(behind.begins == Section::Begins::Gap);
  CHECK(log.time_s[behind.first] == 2000.0);
  CHECK(log.counter_c[behind.first] - log.counter_c[behind.first - 1] ==
        doctest::Approx(-720.0).epsilon(1e-4));
}

TEST_CASE("a counter that counts both ways upward and starts anew with every step is carried on") {
  std::string text = "t_s,v_V,i_A,Capacity (mAh)\n";
  const auto steps = [&](int from_s, const char* rest, double amperes) {
    for (int k = 1; k <= 10; ++k)
      text += std::to_string(from_s + 10 * k) + ',' + rest + ',' +
              std::to_string(amperes * k / 0.36) + '\n';
  };
  text += "0,3.70,0,0\n";
  steps(0, "3.60,-1", 1.0);
  steps(100, "3.80,0.5", 0.5);
  steps(200, "3.60,-1", 1.0);
  const LogReading reading = cell::read_log(text, "x.csv");
  REQUIRE(reading.logs.size() == 1);
  const Log& log = reading.logs[0];
  REQUIRE(log.counter_c.size() == 31);
  CHECK(log.counter_c[10] == doctest::Approx(-100.0).epsilon(1e-3));
  CHECK(log.counter_c[20] == doctest::Approx(-50.0).epsilon(1e-3));
  CHECK(log.counter_c[30] == doctest::Approx(-150.0).epsilon(1e-3));
  CHECK(log.sections.size() == 1);
  CHECK(says(reading, "counts charge and discharge alike"));
}

TEST_CASE("a clock without dates runs on over midnight, a dated one says when") {
  const Log night = only_log("Time,v_V,i_A\n23:59:50,3.7,0\n00:00:00,3.6,-1\n00:00:10,3.59,-1\n");
  CHECK(night.time_s == std::vector<double>{86390.0, 86400.0, 86410.0});
  CHECK(night.sections.size() == 1);
  const Log dated =
      only_log("Date;Time;v_V;i_A\n31.12.2023;23:59:50;3,7;0\n01.01.2024;00:00:00;3,6;-1\n");
  CHECK(dated.time_s[1] - dated.time_s[0] == 10.0);
  REQUIRE(dated.clock_of_zero_s);
  CHECK(static_cast<double>(*dated.clock_of_zero_s) + dated.time_s[1] == 19723.0 * 86400.0);
  const Log epoch = only_log("timestamp,v_V,i_A\n1704067200.5,3.7,0\n1704067210.5,3.6,-1\n");
  CHECK(epoch.time_s == std::vector<double>{0.5, 10.5});
  CHECK(epoch.clock_of_zero_s == 1704067200);
  const Log american =
      only_log("Time,v_V,i_A\n1/12/2024 11:59:50 PM,3.7,0\n1/13/2024 12:00:00 AM,3.6,-1\n");
  CHECK(american.time_s == std::vector<double>{0.0, 10.0});
}

TEST_CASE("units that no heading tells are found from the numbers and said") {
  std::string text = "time,voltage,current,capacity\n";
  for (int k = 0; k <= 20; ++k)
    text += std::to_string(k) + ",3650,-1000," + std::to_string(-k / 3.6 * 60.0) + "\n";
  const LogReading reading = cell::read_log(text, "x.csv");
  REQUIRE(reading.logs.size() == 1);
  const Log& log = reading.logs[0];
  CHECK(log.voltage_v[0] == doctest::Approx(3.65));
  CHECK(log.current_a[5] == doctest::Approx(-1.0));
  CHECK(says(reading, "voltage without a unit: taken for mV"));
  CHECK(says(reading, "current without a unit: taken for mA"));
  CHECK(says(reading, "time without a unit: taken for s"));
}

TEST_CASE("a row that cannot be read is a problem with line and column, the others stand") {
  const LogReading reading = cell::read_log(
      "t_s;v_V;i_A\r\n0;3,7;0\r\n10;3,x;1\r\nEnd of cycle 1\r\n20;;1\r\n30;3,6;-1\r\n40;3,5",
      "lot/B7.csv");
  REQUIRE(reading.logs.size() == 1);
  CHECK(reading.logs[0].time_s == std::vector<double>{0.0, 30.0});
  REQUIRE(reading.problems.size() == 2);
  CHECK(reading.problems[0].place.file == "lot/B7.csv");
  CHECK(reading.problems[0].place.line == 3);
  CHECK(reading.problems[0].place.column == 4);
  CHECK(reading.problems[1].place.line == 7);
  CHECK(says(reading, "1 rows without a reading"));
  CHECK(says(reading, "1 lines that are no samples"));
}

TEST_CASE("files that are no log say what is missing") {
  const auto refused = [](std::string_view text) {
    const LogReading reading = cell::read_log(text, "x.csv");
    CHECK(reading.logs.empty());
    REQUIRE_FALSE(reading.problems.empty());
    return reading.problems.front().text;
  };
  CHECK(refused("") == "no line names a time, a voltage and a current");
  CHECK(refused("1,2,3\n4,5,6\n") == "no line names a time, a voltage and a current");
  CHECK(refused("\xFF\xFEt\0_\0s\0") == "the file is no plain text, or UTF-16");
  CHECK(refused("t_s,v_V,i_A\n") == "no samples below the headings");
  CHECK(cell::read_log_file("/nowhere/at/all.csv").problems.size() == 1);
}

TEST_CASE("many bad rows are counted, not all told") {
  std::string text = "t_s,v_V,i_A\n0,3.7,0\n";
  for (int k = 0; k < 100; ++k) text += "1,2,x\n";
  const LogReading reading = cell::read_log(text, "x.csv");
  CHECK(reading.problems.size() == 21);
  CHECK(reading.problems.back().text == "100 rows in all could not be read");
}
