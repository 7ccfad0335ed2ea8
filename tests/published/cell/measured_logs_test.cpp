// The measured files of cells L, N and P read rightly: sign, sections, charge, steps.
// Sources: Kawakita de Souza 2021, Saha and Goebel 2007, Kollmeyer 2018; see NOTICE. What is
// expected stands in the files' own header lines (`# check: ...`) and was not read by the program.
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "cell/read_log.hpp"
#include "cell/read_table.hpp"
#include "cell/steps.hpp"

using namespace tideover;
using cell::Log;
using cell::Section;
using cell::Step;

namespace {

Log read(const std::string& name) {
  cell::LogReading reading =
      cell::read_log_file(std::string(TIDEOVER_SOURCE_DIR) + "/data/measured/" + name + ".csv");
  CHECK(base::show(reading.problems).empty());
  REQUIRE(reading.logs.size() == 1);
  bool discharges = false;
  for (const cell::Remark& remark : reading.remarks) {
    discharges = discharges || remark.text.find(
                                   "a positive current discharges the cell: the voltage "
                                   "falls when it rises") == 0;
    CHECK(remark.text.find("opposite") == std::string::npos);
  }
  CHECK(discharges);
  return std::move(reading.logs.front());
}

double current_ah(const Log& log, const Section& section) {
  return cell::charge_between_as(log, section.first, section.end - 1) / 3600.0;
}

double counter_ah(const Log& log, const Section& section) {
  return (log.counter_c[section.end - 1] - log.counter_c[section.first]) / 3600.0;
}

/// The current's integral against the counter, section by section.
void check_charge(const Log& log, double share) {
  REQUIRE_FALSE(log.counter_c.empty());
  for (const Section& section : log.sections) {
    CAPTURE(section.label);
    CHECK(current_ah(log, section) == doctest::Approx(counter_ah(log, section)).epsilon(share));
  }
}

}  // namespace

TEST_CASE("measured logs: slow discharge and charge of an LFP cell at three temperatures") {
  struct Case {
    const char* file;
    double out_ah;
    double in_ah;
  };
  for (const Case& c :
       {Case{"cellL_c30_05C", 2.5184, 2.4875}, Case{"cellL_c30_25C", 2.5776, 2.5826},
        Case{"cellL_c30_45C", 2.5234, 2.5293}}) {
    CAPTURE(c.file);
    const Log log = read(c.file);
    REQUIRE(log.sections.size() == 2);
    CHECK(log.sections[0].label == "dis");
    CHECK(log.sections[1].label == "chg");
    CHECK(current_ah(log, log.sections[0]) == doctest::Approx(-c.out_ah).epsilon(0.0005));
    CHECK(current_ah(log, log.sections[1]) == doctest::Approx(c.in_ah).epsilon(0.0005));
    check_charge(log, 0.0005);
  }
}

TEST_CASE("measured logs: charging at constant current, then at constant voltage") {
  struct Case {
    const char* file;
    double current_a;
    double lasts_s;
    double by_current_ah;
  };
  // "CC phase 3362 s, 2.3346 Ah", "CC phase 1088 s, 2.2664 Ah", then 1800 s of constant voltage;
  // the files are thinned to 5 s.
  for (const Case& c : {Case{"cellL_charge_1C_25C", 2.5, 3362.0, 2.3346},
                        Case{"cellL_charge_3C_25C", 7.5, 1088.0, 2.2664}}) {
    CAPTURE(c.file);
    const Log log = read(c.file);
    REQUIRE(log.sections.size() == 1);
    check_charge(log, 0.0005);
    CHECK(log.temperature_c.size() == log.size());
    CHECK(log.ambient_c.size() == log.size());
    const std::vector<Step> steps = cell::find_steps(log);
    REQUIRE(steps.size() == 4);
    CHECK(steps[0].kind == Step::Kind::Rest);
    CHECK(steps[1].kind == Step::Kind::ConstantCurrent);
    CHECK(steps[1].mean_current_a == doctest::Approx(c.current_a).epsilon(0.002));
    CHECK(std::abs(steps[1].lasts_s() - c.lasts_s) < 10.0);
    CHECK(steps[1].charge_as / 3600.0 == doctest::Approx(c.by_current_ah).epsilon(0.005));
    CHECK(steps[2].kind == Step::Kind::ConstantVoltage);
    CHECK(std::abs(steps[2].lasts_s() - 1800.0) < 10.0);
    CHECK(steps[3].kind == Step::Kind::Rest);
  }
}

TEST_CASE("measured logs: a log of means without a counter") {
  const Log log = read("cellL_heating_25C");
  CHECK(log.current_between == cell::Between::Before);
  CHECK(log.counter_c.empty());
  CHECK(log.sections.size() == 1);
  const std::vector<Step> steps = cell::find_steps(log);
  REQUIRE(steps.size() == 5);
  CHECK(steps[3].kind == Step::Kind::Varying);
}

TEST_CASE("measured logs: blocks left out are gaps over which the counter goes on") {
  const Log log = read("cellL_varying_current_25C_A");
  REQUIRE(log.sections.size() == 3);
  CHECK(log.sections[1].begins == Section::Begins::Gap);
  CHECK(log.sections[1].label == "10");
  CHECK(log.sections[2].label == "18");
  // "blocks 0, 1, 2, 10, 18, 19 kept"; the tester's own sum of a spiky current is up to 3 % off the
  // integral of its 1 s samples (the source's anomaly 4).
  check_charge(log, 0.03);
  const double unseen_ah =
      (log.counter_c[log.sections[1].first] - log.counter_c[log.sections[1].first - 1]) / 3600.0;
  CHECK(unseen_ah == doctest::Approx(-7 * 0.1012).epsilon(0.01));
}

TEST_CASE("measured logs: discharges of an ageing cell follow each other in one file") {
  const Log log = read("cellN_discharge_2A_ages_open");
  REQUIRE(log.sections.size() == 5);
  // "2: integral 1.8520 Ah; 40: 1.7758; 80: 1.5677; 120: 1.4362; 168: 1.3279"
  const double out_ah[] = {1.8520, 1.7758, 1.5677, 1.4362, 1.3279};
  const char* numbers[] = {"2", "40", "80", "120", "168"};
  for (std::size_t s = 0; s < 5; ++s) {
    CHECK(log.sections[s].label == numbers[s]);
    CHECK(log.sections[s].begins == (s == 0 ? Section::Begins::Log : Section::Begins::Reset));
    CHECK(current_ah(log, log.sections[s]) == doctest::Approx(-out_ah[s]).epsilon(0.0002));
  }
  CHECK(log.current_between == cell::Between::Straight);
  const std::vector<Step> steps = cell::find_steps(log);
  REQUIRE(steps.size() == 15);
  for (std::size_t s = 0; s < 15; ++s)
    CHECK(steps[s].kind == (s % 3 == 1 ? Step::Kind::ConstantCurrent : Step::Kind::Rest));
}

TEST_CASE("measured logs: a fade of capacities is no log, and a table whose last line stands") {
  const std::string path =
      std::string(TIDEOVER_SOURCE_DIR) + "/data/measured/cellN_capacity_fade_open.csv";
  CHECK_FALSE(cell::read_log_file(path).problems.empty());
}

TEST_CASE("measured logs: four discharges at 1C, told apart by a word") {
  const Log log = read("cellP_1C_25C_start_and_end_of_life");
  REQUIRE(log.sections.size() == 4);
  // "start1 2.7982 Ah in 3474.4 s; start2 2.7516 Ah in 3416.6 s; end1 2.4341 Ah in 3022.2 s; end2
  // 2.3541 Ah in 2923.0 s"
  const double out_ah[] = {2.7982, 2.7516, 2.4341, 2.3541};
  const double lasts_s[] = {3474.4, 3416.6, 3022.2, 2923.0};
  const char* names[] = {"start1", "start2", "end1", "end2"};
  const std::vector<Step> steps = cell::find_steps(log);
  REQUIRE(steps.size() == 8);
  check_charge(log, 0.0002);
  for (std::size_t s = 0; s < 4; ++s) {
    CHECK(log.sections[s].label == names[s]);
    const Step& discharge = steps[2 * s];
    CHECK(discharge.kind == Step::Kind::ConstantCurrent);
    CHECK(discharge.charge_as / 3600.0 == doctest::Approx(-out_ah[s]).epsilon(0.0002));
    CHECK(discharge.lasts_s() == doctest::Approx(lasts_s[s]).epsilon(1e-6));
  }
  CHECK(cell::sentence(steps[0]) ==
        "Discharged at 2.90 A for 57 min 54 s, 2.80 Ah, 4.04 V to 2.50 V");
}

TEST_CASE("measured logs: a C/20 run with its pause of 13 hours is one section") {
  const Log log = read("cellP_c20_25C");
  REQUIRE(log.sections.size() == 1);
  check_charge(log, 0.0005);
  const std::vector<Step> steps = cell::find_steps(log);
  REQUIRE(steps.size() == 5);
  // "the charge returned only 2.616 Ah of the 2.997 Ah removed"
  CHECK(steps[1].charge_as / 3600.0 == doctest::Approx(-2.997).epsilon(0.0005));
  CHECK(steps[3].charge_as / 3600.0 == doctest::Approx(2.616).epsilon(0.0005));
  CHECK(steps[4].lasts_s() > 13.6 * 3600.0);
}

TEST_CASE(
    "measured logs: pulses, thinned over logarithmic times, with the discharge between unseen") {
  struct Case {
    const char* file;
    std::size_t sets;
    double removed_ah;  ///< last line
  };
  for (const Case& c :
       {Case{"cellP_pulses_25C", 14, 2.7728}, Case{"cellP_pulses_0C", 12, 2.47573}}) {
    CAPTURE(c.file);
    const Log log = read(c.file);
    REQUIRE(log.sections.size() == c.sets);
    for (std::size_t s = 1; s < c.sets; ++s) {
      CHECK(log.sections[s].begins == Section::Begins::Gap);
      CHECK(log.sections[s].label == std::to_string(s + 1));
    }
    CHECK(log.counter_c.back() / 3600.0 == doctest::Approx(-c.removed_ah));
    CHECK(log.current_between == cell::Between::Before);
    // Ten-second pulses at 0.1 s: an edge is known to about 0.5 % of their charge.
    check_charge(log, 0.01);
    const std::vector<Step> steps = cell::find_steps(log);
    std::vector<double> pulses_a;
    for (const Step& step : steps) {
      if (step.section == 0 && step.kind == Step::Kind::Pulse)
        pulses_a.push_back(-step.mean_current_a / 2.9);
    }
    REQUIRE(pulses_a.size() == 5);  // "0.5, 1, 2, 4, 6 C"
    const double rates[] = {0.5, 1.0, 2.0, 4.0, 6.0};
    for (std::size_t p = 0; p < 5; ++p)
      CHECK(pulses_a[p] == doctest::Approx(rates[p]).epsilon(0.01));
  }
}

TEST_CASE("measured logs: a varying power beside voltages at the end and the least of each bin") {
  const Log log = read("cellP_varying_power_25C_A");
  REQUIRE(log.sections.size() == 1);
  // "removed 2.6956 Ah and 9.420 Wh net"
  CHECK(current_ah(log, log.sections[0]) == doctest::Approx(-2.6956).epsilon(0.001));
  CHECK(log.voltage_v.front() == 4.0847);
  double energy_j = 0.0;
  for (const Step& step : cell::find_steps(log)) energy_j += step.energy_j;
  CHECK(energy_j / 3600.0 == doctest::Approx(-9.420).epsilon(0.01));
}
