#include "trade/small_build.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "shelf/shelf.hpp"

namespace tideover::test {

namespace {

constexpr double zero_celsius_k = 273.15;

std::vector<std::string> split(std::string_view text, std::string_view by) {
  std::vector<std::string> pieces;
  while (true) {
    const std::size_t end = text.find(by);
    pieces.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return pieces;
    text.remove_prefix(end + by.size());
  }
}

}  // namespace

build::Build small_build(const std::string& sheet) {
  auto read = build::read_sheet("[needs]\noutlast = \"1 s\"\n" + sheet, "small.toml",
                                shelf::built_in_shelf());
  if (!read) {
    for (const base::Problem& problem : read.problems()) MESSAGE(base::show(problem));
  }
  REQUIRE(read.has_value());
  return std::move(read).value();
}

SmallRun::SmallRun(const std::string& sheet, double ambient_c, const run::Settings& settings)
    : build_(small_build(sheet)) {
  base::NoProgress nobody;
  REQUIRE(!build_.timelines.empty());
  record_ = run::run(build_, build_.timelines.front(),
                     {.ambient = quantity::Temperature::of_celsius(ambient_c)}, settings, nobody);
  INFO("why: " << record_.outcome.why);
  REQUIRE(record_.outcome.ended == hybrid::Ended::AtTime);
}

std::size_t SmallRun::channel(std::string_view part, std::string_view name) const {
  const int found = record_.find(part, name);
  INFO("no channel " << std::string(name) << " of " << std::string(part));
  REQUIRE(found >= 0);
  return static_cast<std::size_t>(found);
}

double SmallRun::shown(std::size_t channel, double value_si) const {
  return record_.channels[channel].is_temperature ? value_si - zero_celsius_k : value_si;
}

double SmallRun::at(double time_s, std::string_view part, std::string_view name) const {
  const std::size_t found = channel(part, name);
  const auto& values = record_.samples_si[found];
  const auto after = std::ranges::upper_bound(record_.instants, time_s, {}, &quantity::Second::si);
  REQUIRE(after != record_.instants.begin());
  const auto k = static_cast<std::size_t>(after - record_.instants.begin());
  if (after == record_.instants.end()) return shown(found, values.back());
  const double before_s = record_.instants[k - 1].si();
  const double share = (time_s - before_s) / (after->si() - before_s);
  return shown(found, values[k - 1] + share * (values[k] - values[k - 1]));
}

double SmallRun::highest(std::string_view part, std::string_view name) const {
  const std::size_t found = channel(part, name);
  return shown(found, record_.highest[found].value_si);
}

double SmallRun::lowest(std::string_view part, std::string_view name) const {
  const std::size_t found = channel(part, name);
  return shown(found, record_.lowest[found].value_si);
}

double SmallRun::said_s(std::string_view part, std::string_view words, double from_s) const {
  for (const run::Event& event : record_.events) {
    if (event.part == part && event.at.si() >= from_s && event.words.starts_with(words)) {
      return event.at.si();
    }
  }
  return -1.0;
}

bool SmallRun::exceeds(std::string_view part, std::string_view rating) const {
  return std::ranges::any_of(record_.overloads, [&](const run::Overload& one) {
    return one.part == part && one.rating == rating && one.longest > one.stands;
  });
}

std::string leads(std::string_view between) {
  std::string entries;
  for (const std::string& pair : split(between, ", ")) {
    const auto ends = split(pair, " - ");
    REQUIRE(ends.size() == 2);
    std::string name = ends[0] + "_to_" + ends[1];
    std::ranges::replace(name, '.', '_');
    entries += name + " = { between = [\"" + ends[0] + "\", \"" + ends[1] +
               "\"], size = \"1.5 mm2\", length = \"100 mm\" }\n";
  }
  return entries;
}

}  // namespace tideover::test
