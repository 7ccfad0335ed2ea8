#include "question/standby.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/lasting.hpp"
#include "part/adapter/adapter.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"

namespace tideover::question {

using quantity::Ratio;
using quantity::Second;
using quantity::Watt;
using run::Record;

namespace {

/// A group that recovers from its discharge may still be below its limit for this long.
constexpr double rest_s = 3600.0;

/// The part of a record before its first outage.
struct Calm {
  Second from;
  Second to;
};

Calm calm_of(const Record& record) {
  Calm calm;
  for (const run::StretchSpan& span : record.stretches) {
    if (!span.has_mains) break;
    calm.to = span.ends;
  }
  return calm;
}

/// Mean over time by the trapezoidal rule through the samples.
double mean_of(const Record& record, Calm calm, const std::function<double(std::size_t)>& sample) {
  double area = 0.0;
  double length_s = 0.0;
  for (std::size_t k = 1; k < record.instants.size(); ++k) {
    if (record.instants[k] > calm.to) break;
    const double dt_s = (record.instants[k] - record.instants[k - 1]).si();
    area += 0.5 * dt_s * (sample(k) + sample(k - 1));
    length_s += dt_s;
  }
  return length_s > 0.0 ? area / length_s : 0.0;
}

Watt mean_power(const Record& record, Calm calm, std::string_view part, std::string_view volts,
                std::string_view amps) {
  const int v = record.find(part, volts);
  const int i = record.find(part, amps);
  if (v < 0 || i < 0) return {};
  const auto& voltage = record.samples_si[static_cast<std::size_t>(v)];
  const auto& current = record.samples_si[static_cast<std::size_t>(i)];
  return Watt::of_si(mean_of(record, calm, [&](std::size_t k) { return voltage[k] * current[k]; }));
}

bool is_sampled(const Record& record) {
  return !record.instants.empty() && record.samples_si.size() == record.channels.size();
}

Second time_above(const Record& record, std::size_t channel, double limit) {
  double above_s = 0.0;
  const std::vector<double>& y = record.samples_si[channel];
  for (std::size_t k = 1; k < record.instants.size(); ++k) {
    const double dt_s = (record.instants[k] - record.instants[k - 1]).si();
    const double a = y[k - 1] - limit;
    const double b = y[k] - limit;
    if (a > 0.0 && b > 0.0) above_s += dt_s;
    if ((a > 0.0) != (b > 0.0)) above_s += dt_s * std::max(a, b) / std::abs(b - a);
  }
  return Second::of_si(above_s);
}

/// The instant after `from` and its rest at which the samples fall below `limit`, if they do.
std::optional<Second> falls_below(const Record& record, std::size_t channel, double limit,
                                  Second from) {
  const std::vector<double>& y = record.samples_si[channel];
  std::optional<Second> fell;
  for (std::size_t k = 0; k < y.size(); ++k) {
    const Second at = record.instants[k];
    if (at < from) continue;
    if (y[k] >= limit) {
      fell.reset();
    } else if (!fell) {
      const bool crosses = k > 0 && y[k - 1] > limit && record.instants[k - 1] >= from;
      const double share = crosses ? (y[k - 1] - limit) / (y[k - 1] - y[k]) : 1.0;
      fell = crosses ? record.instants[k - 1] + share * (at - record.instants[k - 1]) : at;
    }
    if (fell && (at - *fell).si() > rest_s) return fell;
  }
  return fell;
}

}  // namespace

Standby standby_of(const build::Build& build, const Record& record) {
  Standby standby;
  if (!is_sampled(record)) return standby;
  const Calm calm = calm_of(record);
  Watt given;
  for (const auto& part : build.parts) {
    if (dynamic_cast<const part::Adapter*>(part.get()) != nullptr) {
      const Watt power = mean_power(record, calm, part->name, "output voltage", "output current");
      standby.adapters.push_back({part->name, power});
      given += power;
    } else if (dynamic_cast<const part::Load*>(part.get()) != nullptr) {
      standby.loads += mean_power(record, calm, part->name, "input voltage", "current");
    } else if (dynamic_cast<const part::Pack*>(part.get()) != nullptr) {
      standby.pack += mean_power(record, calm, part->name, "voltage", "discharge current");
    }
  }
  standby.supply = given + standby.pack - standby.loads;
  return standby;
}

std::vector<HeadRoom> head_room_of(const build::Build& build, const Record& record) {
  std::vector<HeadRoom> rooms;
  if (!is_sampled(record)) return rooms;
  const Calm calm = calm_of(record);
  for (const part::Adapter* adapter : build::parts_of<part::Adapter>(build)) {
    const int found = record.find(adapter->name, "share of rating");
    if (found < 0) continue;
    const auto channel = static_cast<std::size_t>(found);
    const std::vector<double>& share = record.samples_si[channel];
    const double mean = mean_of(record, calm, [&](std::size_t k) { return share[k]; });
    rooms.push_back({adapter->name, channel, Ratio::of_si(mean), record.highest[channel],
                     finding::lasting(record, channel).value_or(record.highest[channel]),
                     time_above(record, channel, tight_rating)});
  }
  return rooms;
}

Keeping keeping_of(const build::Build& build, const Record& record) {
  Keeping keeping;
  if (!is_sampled(record)) return keeping;
  if (!record.pack_cut_offs.empty()) keeping.from = record.pack_cut_offs.front().at;
  keeping.watched = record.instants.back() - keeping.from;
  for (const part::Pack* pack : build::parts_of<part::Pack>(build)) {
    for (int group = 1; group <= pack->series; ++group) {
      const int channel = record.find(pack->name, fmt::format("group {} voltage", group));
      if (channel < 0) continue;
      keeping.was_tried = true;
      const auto fell = falls_below(record, static_cast<std::size_t>(channel),
                                    pack->cell.discharge_to.si(), keeping.from);
      if (!fell || (keeping.lasts && *keeping.lasts <= *fell - keeping.from)) continue;
      keeping.lasts = *fell - keeping.from;
      keeping.group = fmt::format("{}, group {}", pack->name, group);
    }
  }
  return keeping;
}

}  // namespace tideover::question
