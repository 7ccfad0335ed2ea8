// A small build written as a sheet, run by the tool itself, and read as a meter would read it.
#pragma once

#include <string>
#include <string_view>

#include "build/build.hpp"
#include "run/run.hpp"

namespace tideover::test {

// A run of the first timeline of a sheet.
class SmallRun {
 public:
  // Fails the test where the sheet has a problem or the run does not come to its end.
  SmallRun(const std::string& sheet, double ambient_c, const run::Settings& settings = {});

  // What a meter shows at a time, SI but temperatures in degrees Celsius; between samples by a
  // straight line, at an event what holds after it.
  [[nodiscard]] double at(double time_s, std::string_view part, std::string_view channel) const;
  [[nodiscard]] double highest(std::string_view part, std::string_view channel) const;
  [[nodiscard]] double lowest(std::string_view part, std::string_view channel) const;
  // When `part` first said words that begin so, at `from_s` or later; negative if never.
  [[nodiscard]] double said_s(std::string_view part, std::string_view words,
                              double from_s = 0.0) const;
  [[nodiscard]] bool exceeds(std::string_view part, std::string_view rating) const;
  [[nodiscard]] const build::Build& build() const { return build_; }
  [[nodiscard]] const run::Record& record() const { return record_; }

 private:
  [[nodiscard]] std::size_t channel(std::string_view part, std::string_view name) const;
  [[nodiscard]] double shown(std::size_t channel, double value_si) const;

  build::Build build_;
  run::Record record_;
};

// `sheet`, without its needs, read whole; fails the test where it has a problem.
[[nodiscard]] build::Build small_build(const std::string& sheet);

// "supply.plus - fan.plus, fan.minus - supply.minus" as entries of [leads]: 100 mm of 1.5 mm2, of
// no account.
[[nodiscard]] std::string leads(std::string_view between);

}  // namespace tideover::test
