#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "finding/wiring.hpp"
#include "part/capacitor/capacitor.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// E6 steps of rated voltages, from memory.
constexpr std::array ratings{6.3, 10.0, 16.0, 25.0, 35.0, 50.0, 63.0, 80.0, 100.0};

/// What it came to in the runs, peaks included.
Volt highest_in_runs(const Evidence& evidence, const part::Capacitor& capacitor) {
  Volt highest;
  for (const Case& one : evidence.cases) {
    const int channel = one.record->find(capacitor.name, "voltage");
    if (channel < 0) continue;
    highest = std::max(
        highest, Volt::of_si(one.record->highest[static_cast<std::size_t>(channel)].value_si));
  }
  return highest;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const part::Capacitor* one : parts_of<part::Capacitor>(evidence.build)) {
    const Volt on_sheet = feeding.highest_voltage({one->name, "plus"});
    const Volt in_runs = highest_in_runs(evidence, *one);
    const Volt highest = std::max(on_sheet, in_runs);
    if (highest.si() <= 0.0) continue;
    Finding finding =
        measured_against<Volt>(one->name, highest.si(), one->rated.low_si, Limits::Above);
    finding.sentence = fmt::format(
        "{} stands at {} at most{} and is rated {}.", one->name, shown<Volt>(highest.si()),
        in_runs > on_sheet ? ", its peaks in the runs" : "", shown<Volt>(one->rated.low_si));
    if (finding.answer != Answer::Holds) {
      const double least_v = highest.si() / (1.0 - tight_share);
      const auto* const next = std::ranges::lower_bound(ratings, least_v);
      finding.advice = fmt::format("{}: rated = {} or more.", one->name,
                                   shown<Volt>(next != ratings.end() ? *next : least_v));
      finding.brief = one->name + " stands above its voltage";
    }
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace

const Rule& capacitor_voltage() {
  static const Rule rule{
      .key = "capacitor_voltage",
      .title = "Voltage of a capacitor",
      .words =
          "A capacitor on a rail sees the highest voltage of whatever feeds the rail, with a full "
          "pack and every adjustment at its upper end. Its rated voltage lies above that, better "
          "by a tenth or more.",
      .formula = "U_highest <= U_rated, better 0.9 U_rated",
      .source = "IEC 60384-4: rated voltage, from memory; the tenth: common practice, no source",
      .caution = "An electrolytic capacitor above its voltage, or the wrong way round, bursts.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
