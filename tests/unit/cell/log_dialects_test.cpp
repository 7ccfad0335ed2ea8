// One log in every way that testers write: it reads back the same.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/text.hpp"
#include "cell/read_log.hpp"

using namespace tideover;

namespace {

struct Sample {
  double time_s;
  double voltage_v;
  double current_a;  ///< positive charges
  double counter_as;
  double temperature_c;
};

/// Rest, discharge, rest, charge, rest of a cell with a resistance, at whole tenths of a second.
std::vector<Sample> any_test() {
  std::vector<Sample> samples;
  Sample now{0.0, 0.0, 0.0, 0.0, 25.0};
  double open_v = 3.9;
  const double resistance_ohm = *rc::gen::inRange(20, 80) * 1e-3;
  const std::array<double, 5> currents{0.0, -*rc::gen::inRange(500, 5000) * 1e-3, 0.0,
                                       *rc::gen::inRange(500, 5000) * 1e-3, 0.0};
  for (const double current_a : currents) {
    const int count = *rc::gen::inRange(3, 12);
    for (int k = 0; k < count; ++k) {
      const int tenths = *rc::gen::inRange(1, 100);
      now.time_s = std::round(10.0 * now.time_s + tenths) / 10.0;
      now.current_a = current_a;
      now.counter_as += current_a * tenths / 10.0;
      open_v += current_a * tenths * 1e-6;
      now.voltage_v = std::round(1e5 * (open_v + resistance_ohm * current_a)) / 1e5;
      now.temperature_c = 25.0 + 0.1 * *rc::gen::inRange(0, 20);
      samples.push_back(now);
    }
  }
  return samples;
}

struct Spelling {
  char separator;
  char decimal;
  std::string line_end;
  bool has_mark;  ///< of byte order
  bool quotes;    ///< around every field
  bool comments;
  double sign;  ///< 1: positive charges
  int time;     ///< s, min, h, ms, clock, date
  int voltage;  ///< V, mV
  int current;  ///< A, mA
  int counter;  ///< none, Ah, mAh, A s
  bool temperature;
  int heading;  ///< which of three ways
};

Spelling any_spelling() {
  Spelling s;
  s.separator = *rc::gen::element(',', ';', '\t', ' ', '|');
  s.decimal = *rc::gen::element('.', ',');
  s.line_end = *rc::gen::element<std::string>("\n", "\r\n");
  s.has_mark = *rc::gen::arbitrary<bool>();
  s.quotes = *rc::gen::arbitrary<bool>() || (s.separator == ',' && s.decimal == ',');
  s.comments = *rc::gen::arbitrary<bool>();
  s.sign = *rc::gen::element(1.0, -1.0);
  s.time = *rc::gen::inRange(0, 6);
  s.voltage = *rc::gen::inRange(0, 2);
  s.current = *rc::gen::inRange(0, 2);
  s.counter = *rc::gen::inRange(0, 4);
  s.temperature = *rc::gen::arbitrary<bool>();
  s.heading = *rc::gen::inRange(0, 3);
  return s;
}

std::string two(int number) { return std::to_string(100 + number).substr(1); }

class Writer {
 public:
  explicit Writer(Spelling spelling) : s_(std::move(spelling)) {}

  std::string write(const std::vector<Sample>& samples) {
    if (s_.has_mark) text_ += "\xEF\xBB\xBF";
    if (s_.comments) text_ += "# a test of ours" + s_.line_end;
    static constexpr std::array<const char*, 6> times{"s", "min", "h", "ms", "", ""};
    static constexpr std::array<const char*, 4> counters{"", "Ah", "mAh", "As"};
    head("Time", "t", times[at(s_.time)]);
    head("Voltage", "v", s_.voltage == 0 ? "V" : "mV");
    head("Current", "i", s_.current == 0 ? "A" : "mA");
    if (s_.counter > 0) head("Capacity", "q", counters[at(s_.counter)]);
    if (s_.temperature)
      head("Temperature", "temp",
           s_.heading == 0 ? "\xC2\xB0"
                             "C"
                           : "degC");
    end_line();
    int count = 0;
    for (const Sample& sample : samples) {
      if (s_.comments && ++count == 7) text_ += "  # in between" + s_.line_end;
      put(time(sample.time_s));
      put(number(sample.voltage_v * (s_.voltage == 0 ? 1.0 : 1e3)));
      put(number(s_.sign * sample.current_a * (s_.current == 0 ? 1.0 : 1e3)));
      static constexpr std::array<double, 4> scales{0.0, 1.0 / 3600.0, 1.0 / 3.6, 1.0};
      if (s_.counter > 0) put(number(s_.sign * sample.counter_as * scales[at(s_.counter)]));
      if (s_.temperature) put(number(sample.temperature_c));
      end_line();
    }
    return text_;
  }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }

  void put(const std::string& field) {
    if (!line_.empty()) line_ += s_.separator;
    line_ += s_.quotes ? '"' + field + '"' : field;
  }
  void end_line() {
    text_ += line_ + s_.line_end;
    line_.clear();
  }
  void head(const std::string& word, const std::string& letter, const std::string& unit) {
    if (unit.empty()) return put(word);
    if (s_.heading == 0)
      return put(s_.separator == ' ' ? word + '/' + unit : word + " (" + unit + ')');
    if (s_.heading == 1) return put(letter + '_' + unit);
    put(word + '[' + unit + ']');
  }
  std::string number(double value) const {
    std::string text = base::number_text(value);
    for (char& c : text) {
      if (c == '.') c = s_.decimal;
    }
    return text;
  }
  std::string time(double time_s) const {
    if (s_.time < 4) {
      static constexpr std::array<double, 4> units{1.0, 60.0, 3600.0, 1e-3};
      return number(time_s / units[at(s_.time)]);
    }
    const auto tenths = static_cast<int>(std::lround(10.0 * time_s));
    const int whole = tenths / 10;
    const std::string clock = two(whole / 3600) + ':' + two(whole / 60 % 60) + ':' +
                              two(whole % 60) + s_.decimal + std::to_string(tenths % 10);
    return s_.time == 4 ? clock : "2024-03-01T" + clock;
  }

  Spelling s_;
  std::string text_;
  std::string line_;
};

bool near(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(1.0, std::abs(b)); }

}  // namespace

TEST_CASE("a log in any dialect, with any units and sign, reads back as the same log") {
  CHECK(rc::check([] {
    const std::vector<Sample> samples = any_test();
    const Spelling spelling = any_spelling();
    const std::string text = Writer(spelling).write(samples);
    RC_LOG() << text;
    const cell::LogReading reading = cell::read_log(text, "lot/K7.csv");
    RC_LOG() << base::show(reading.problems);
    RC_ASSERT(reading.problems.empty());
    RC_ASSERT(reading.logs.size() == 1U);
    const cell::Log& log = reading.logs.front();
    RC_ASSERT(log.cell == "K7");
    RC_ASSERT(log.size() == samples.size());
    RC_ASSERT(log.sections.size() == 1U);
    RC_ASSERT(log.counter_c.empty() == (spelling.counter == 0));
    RC_ASSERT(log.temperature_c.empty() == !spelling.temperature);
    const double zero_s = spelling.time == 5 ? std::floor(samples.front().time_s) : 0.0;
    for (std::size_t k = 0; k < samples.size(); ++k) {
      RC_ASSERT(near(log.time_s[k], samples[k].time_s - zero_s));
      RC_ASSERT(near(log.voltage_v[k], samples[k].voltage_v));
      RC_ASSERT(near(log.current_a[k], samples[k].current_a));
      if (spelling.counter > 0) RC_ASSERT(near(log.counter_c[k], samples[k].counter_as));
      if (spelling.temperature) RC_ASSERT(near(log.temperature_c[k], samples[k].temperature_c));
    }
  }));
}
