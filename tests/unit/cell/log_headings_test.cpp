#include "cell/log_headings.hpp"

#include <doctest/doctest.h>

#include "cell/log_fields.hpp"

using namespace tideover::cell;

namespace {

struct Expected {
  const char* heading;
  Role role;
  Measured measured;
  double per_unit;  ///< SI value of 1
};

double si_of_one(const Unit& unit) {
  double number = unit.factor + unit.offset;
  for (int i = 0; i < unit.shift; ++i) number /= 10.0;
  return number;
}

Headings headings(std::string_view line) {
  return choose_columns(read_headings(split_fields(line, ',')));
}

}  // namespace

TEST_CASE("headings: the usual spellings") {
  const Expected all[] = {
      {"t_s", Role::Time, Measured::Time, 1.0},
      {"Time (s)", Role::Time, Measured::Time, 1.0},
      {"Test_Time(s)", Role::Time, Measured::Time, 1.0},
      {"Elapsed time [min]", Role::Time, Measured::Time, 60.0},
      {"t/h", Role::Time, Measured::Time, 3600.0},
      {"TestTime", Role::Time, Measured::Nothing, 1.0},
      {"Zeit [ms]", Role::Time, Measured::Time, 1e-3},
      {"Voltage [V]", Role::Voltage, Measured::Voltage, 1.0},
      {"v_V", Role::Voltage, Measured::Voltage, 1.0},
      {"v_end_V", Role::Voltage, Measured::Voltage, 1.0},
      {"U in mV", Role::Voltage, Measured::Voltage, 1e-3},
      {"mV", Role::Voltage, Measured::Voltage, 1e-3},
      {"Spannung (V)", Role::Voltage, Measured::Voltage, 1.0},
      {"Cell voltage", Role::Voltage, Measured::Nothing, 1.0},
      {"I/mA", Role::Current, Measured::Current, 1e-3},
      {"i_A", Role::Current, Measured::Current, 1.0},
      {"Current(A)", Role::Current, Measured::Current, 1.0},
      {"Charge current [A]", Role::ChargeCurrent, Measured::Current, 1.0},
      {"Discharge current [mA]", Role::DischargeCurrent, Measured::Current, 1e-3},
      {"Charge/discharge current (A)", Role::Current, Measured::Current, 1.0},
      {"q_Ah", Role::Counter, Measured::Charge, 3600.0},
      {"qchg_Ah", Role::ChargeCounter, Measured::Charge, 3600.0},
      {"Capacity (mAh)", Role::Counter, Measured::Charge, 3.6},
      {"Discharge capacity (Ah)", Role::DischargeCounter, Measured::Charge, 3600.0},
      {"Charge_Capacity(Ah)", Role::ChargeCounter, Measured::Charge, 3600.0},
      {"Charge (Ah)", Role::Counter, Measured::Charge, 3600.0},
      {"temp_C", Role::Temperature, Measured::Temperature, 1.0},
      {"temp_case_C", Role::Temperature, Measured::Temperature, 1.0},
      {"temp_air_C", Role::Ambient, Measured::Temperature, 1.0},
      {"Temperature (\xC2\xB0"
       "C)",
       Role::Temperature, Measured::Temperature, 1.0},
      {"Temperature (\xB0"
       "C)",
       Role::Temperature, Measured::Temperature, 1.0},
      {"Chamber temperature [degC]", Role::Ambient, Measured::Temperature, 1.0},
      {"Temp. [\xC2\xB0"
       "F]",
       Role::Temperature, Measured::Temperature, -31.0 * 5.0 / 9.0},
      {"R (m\xCE\xA9)", Role::Resistance, Measured::Resistance, 1e-3},
      {"IR mOhm", Role::Resistance, Measured::Resistance, 1e-3},
      {"State", Role::State, Measured::Nothing, 1.0},
      {"cell", Role::Cell, Measured::Nothing, 1.0},
      {"Serial no", Role::Cell, Measured::Nothing, 1.0},
      {"run", Role::Label, Measured::Nothing, 1.0},
      {"pulse_set", Role::Label, Measured::Nothing, 1.0},
      {"discharge", Role::Label, Measured::Nothing, 1.0},
      {"Date", Role::Date, Measured::Nothing, 1.0},
      {"p_W", Role::Ignored, Measured::Other, 1.0},
      {"Energy (Wh)", Role::Ignored, Measured::Other, 1.0},
      {"i_rms_A", Role::Ignored, Measured::Current, 1.0},
      {"Set voltage (V)", Role::Ignored, Measured::Voltage, 1.0},
      {"SoC (%)", Role::Ignored, Measured::Other, 1.0},
      {"", Role::Ignored, Measured::Nothing, 1.0},
  };
  for (const Expected& expected : all) {
    CAPTURE(expected.heading);
    const Column column = read_heading(expected.heading);
    CHECK(column.role == expected.role);
    CHECK(column.unit.measured == expected.measured);
    CHECK(si_of_one(column.unit) == doctest::Approx(expected.per_unit));
  }
}

TEST_CASE("headings: of several columns the plain one is taken") {
  const Headings power = headings("t_s,p_W,i_A,v_end_V,v_min_V,temp_C");
  CHECK(power.find(Role::Voltage) == 3);
  CHECK(power.find(Role::Current) == 2);
  const Headings bins = headings("t_s,i_mean_A,i_rms_A,p_mean_W,v_V,temp_case_C,temp_air_C");
  CHECK(bins.find(Role::Current) == 1);
  CHECK(bins.find(Role::Temperature) == 5);
  CHECK(bins.find(Role::Ambient) == 6);
  const Headings times = headings("Step time (s),Total time (s),U (V),I (A)");
  CHECK(times.find(Role::Time) == 1);
  const Headings letters = headings("t,U,I,T");
  CHECK(letters.find(Role::Time) == 0);
  CHECK(letters.find(Role::Temperature) == 3);
}

TEST_CASE("headings: what makes a log and what a table") {
  CHECK(headings("t_s,v_V,i_A").make_a_log());
  CHECK(headings("t_s,v_V").make_a_log());  // a logger of cells at rest
  CHECK_FALSE(headings("t_s,v_V,p_W").make_a_log());
  CHECK_FALSE(headings("v_V,i_A").make_a_log());
  CHECK(headings("cell,capacity (mAh),resistance (mOhm),rest voltage (V),date").make_a_table());
  CHECK_FALSE(headings("cell,capacity (mAh),rest voltage (V),date").make_a_log());
  CHECK_FALSE(headings("1,2,3").make_a_table());
}

TEST_CASE("headings: units on a line of their own") {
  std::vector<Column> columns = read_headings({"Time", "Voltage", "Current"});
  CHECK_FALSE(take_units(columns, {"0", "3.7", "1"}));
  REQUIRE(take_units(columns, {"min", "[mV]", "(A)"}));
  CHECK(columns[0].unit.factor == 60.0);
  CHECK(columns[1].unit.shift == 3);
}
