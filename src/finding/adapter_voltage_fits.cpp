#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/demand.hpp"
#include "finding/rule_list.hpp"
#include "part/adapter/adapter.hpp"

namespace tideover::finding {

using quantity::Volt;

namespace {

/// Something that hangs on an adapter, and the range of voltage it takes.
struct Consumer {
  std::string name;
  std::string terminal;
  quantity::Span<Volt> accepts;
};

std::vector<Consumer> consumers_of(const build::Build& build) {
  std::vector<Consumer> all;
  for (const part::Load* load : parts_of<part::Load>(build)) {
    all.push_back({load->name, "plus", load->accepts});
  }
  for (const part::ConverterBoard* board : parts_of<part::ConverterBoard>(build)) {
    all.push_back({board->name, "in_plus", board->accepts});
  }
  return all;
}

Finding finding_of(const Supply& adapter, const Consumer& consumer) {
  const double low_v = consumer.accepts.low_si;
  const double high_v = consumer.accepts.high_si;
  const bool is_high = high_v - adapter.highest.si() < adapter.lowest.si() - low_v;
  const double volts = is_high ? adapter.highest.si() : adapter.lowest.si();
  Finding finding = measured_against<Volt>(consumer.name, volts, is_high ? high_v : low_v,
                                           is_high ? Limits::Above : Limits::Below);
  finding.margin = (is_high ? high_v - volts : volts - low_v) / (high_v - low_v);
  finding.answer = answer_of(*finding.margin);
  finding.sentence =
      fmt::format("{} brings {} at full load to {} at no load, and {} takes {}.", adapter.part,
                  quantity::show(adapter.lowest, 4), quantity::show(adapter.highest, 4),
                  consumer.name, quantity::show(consumer.accepts));
  if (finding.answer == Answer::Holds) return finding;
  finding.advice =
      is_high
          ? fmt::format("{}: output = {} or less at no load, or a {} that takes more.",
                        adapter.part, shown<Volt>(high_v - 0.101 * (high_v - low_v)), consumer.name)
          : fmt::format("{}: output = {} or more at full load, or a {} that takes less.",
                        adapter.part, shown<Volt>(low_v + 0.101 * (high_v - low_v)), consumer.name);
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Rails rails(evidence.build);
  std::vector<Finding> found;
  for (const Consumer& consumer : consumers_of(evidence.build)) {
    for (const Supply& source :
         supplies_of(evidence.build, rails, {consumer.name, consumer.terminal})) {
      const auto* const part = evidence.build.find(source.part);
      if (dynamic_cast<const part::Adapter*>(part) == nullptr) continue;
      found.push_back(finding_of(source, consumer));
    }
  }
  return found;
}

}  // namespace

const Rule& adapter_voltage_fits() {
  static const Rule rule{
      .key = "adapter_voltage_fits",
      .title = "An adapter's voltage and what hangs on it",
      .words =
          "Measure an adapter with nothing on it and with all it can give: both voltages must "
          "lie within what every device and every board behind it takes.",
      .formula =
          "U_low <= U_rated (1 - tolerance) - R I_rated and U_rated (1 + tolerance) <= "
          "U_high; margin: distance to the nearer end over U_high - U_low",
      .source = "common practice, no source",
      .caution = {},
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
