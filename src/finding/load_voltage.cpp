#include <algorithm>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/instant.hpp"
#include "finding/rule_list.hpp"
#include "finding/witness.hpp"
#include "part/load/load.hpp"

namespace tideover::finding {

using quantity::Second;
using quantity::Volt;

namespace {

/// Shorter dips are for the load to ride through, and for a closer look at the changeover.
constexpr double moment_s = 1.0;

bool is_served(const run::Service& service, Second from, Second to) {
  return std::ranges::any_of(service.served, [&](const run::Service::Interval& interval) {
    return interval.from <= from && to <= interval.to;
  });
}

/// The lowest voltage of a load for a moment in all while it is served.
std::optional<run::Extreme> lowest_while_served(const run::Record& record,
                                                const run::Service& service) {
  const int channel = record.find(service.load, "input voltage");
  if (channel < 0) return std::nullopt;
  const std::vector<double>& u = record.samples_si[static_cast<std::size_t>(channel)];
  struct Step {
    double volts;
    double lasts_s;
    Second at;
  };
  std::vector<Step> steps;
  for (std::size_t k = 1; k < u.size(); ++k) {
    const Second from = record.instants[k - 1];
    const Second to = record.instants[k];
    if (is_served(service, from, to)) {
      steps.push_back({std::max(u[k - 1], u[k]), (to - from).si(), from});
    }
  }
  std::ranges::sort(steps, {}, &Step::volts);
  double spent_s = 0.0;
  for (const Step& step : steps) {
    spent_s += step.lasts_s;
    if (spent_s >= moment_s) return run::Extreme{step.volts, step.at};
  }
  return std::nullopt;
}

struct Lowest {
  Reached reached;
  bool is_served = false;
};

/// While it is served; of a load that is never served, the most it ever gets.
std::optional<Lowest> lowest_of(const Evidence& evidence, const std::string& load) {
  std::optional<Lowest> found;
  for (const Case& one : evidence.cases) {
    for (const run::Service& service : one.record->services) {
      if (service.load != load) continue;
      const auto here = lowest_while_served(*one.record, service);
      if (here && (!found || here->value_si < found->reached.value_si)) {
        found = Lowest{{here->value_si, here->at, &one}, true};
      }
    }
  }
  if (found) return found;
  const auto most = lasting_worst(evidence, load, "input voltage", Limits::Above);
  if (most) found = Lowest{*most, false};
  return found;
}

Finding finding_of(const part::Load& load, const Lowest& lowest) {
  const double low_v = load.accepts.low_si;
  const double volts = lowest.reached.value_si;
  Finding finding = measured_against<Volt>(load.name, volts, low_v, Limits::Below);
  finding.margin = (volts - low_v) / (load.accepts.high_si - low_v);
  finding.answer = answer_of(*finding.margin);
  const std::string accepts = quantity::show(load.accepts);
  if (lowest.is_served) {
    finding.sentence =
        fmt::format("{} works from {}; while it is served it gets {} or more, {}.", load.name,
                    accepts, shown<Volt>(volts), when_and_where(lowest.reached));
  } else {
    finding.sentence =
        fmt::format("{} works from {} and never serves: it gets up to {}, {}.", load.name, accepts,
                    shown<Volt>(volts), when_and_where(lowest.reached));
  }
  if (finding.answer == Answer::Holds) return finding;
  const double wanted_v = low_v + 1.01 * tight_share * (load.accepts.high_si - low_v);
  finding.advice = fmt::format(
      "what feeds {}: {} more (converter output or adapter), or thicker leads on the way to it.",
      load.name, shown<Volt>(std::max(0.0, wanted_v - volts), 3));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  std::vector<Finding> found;
  for (const part::Load* load : parts_of<part::Load>(evidence.build)) {
    const auto lowest = lowest_of(evidence, load->name);
    if (lowest) found.push_back(finding_of(*load, *lowest));
  }
  return found;
}

}  // namespace

const Rule& load_voltage() {
  static const Rule rule{
      .key = "load_voltage",
      .title = "Voltage at a device",
      .words =
          "A device gets a voltage it accepts for as long as it is carried: on the adapter, "
          "on the pack, and at the end of the pack, when most is lost on the way.",
      .formula =
          "U_low <= U at the device, whenever it is served; margin: (U - U_low) / (U_high - "
          "U_low)",
      .source = "common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
