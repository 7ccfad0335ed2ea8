#include "finding/lead_loss.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "finding/lasting.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Joule;
using quantity::Ohm;
using quantity::Volt;
using run::Record;

namespace {

/// Currents whose integrals and whose integrals of the square agree to this are one current. The
/// filling of input capacitors, which a load's own draw does not show, stays below it.
constexpr double same_share = 0.01;

struct Integrals {
  double charge_as = 0.0;
  double square_a2s = 0.0;
};

Integrals integrals_of(const Record& record, std::size_t channel) {
  Integrals sum;
  const std::vector<double>& i = record.samples_si[channel];
  for (std::size_t k = 1; k < i.size(); ++k) {
    const double dt_s = (record.instants[k] - record.instants[k - 1]).si();
    sum.charge_as += 0.5 * dt_s * (std::abs(i[k]) + std::abs(i[k - 1]));
    sum.square_a2s += 0.5 * dt_s * (i[k] * i[k] + i[k - 1] * i[k - 1]);
  }
  return sum;
}

bool is_same(const Integrals& a, const Integrals& b) {
  const auto near = [](double x, double y) {
    return x > 0.0 && y > 0.0 && std::abs(x - y) <= same_share * std::max(x, y);
  };
  return near(a.charge_as, b.charge_as) && near(a.square_a2s, b.square_a2s);
}

bool is_sampled(const Record& record) {
  return !record.instants.empty() && record.samples_si.size() == record.channels.size();
}

/// Where paths meet or power changes its form: a load's own leads end there.
bool is_junction(const part::Part& part) {
  constexpr std::array<std::string_view, 7> kinds{
      "terminal-block", "adapter", "converter", "charger", "pack", "protection-board", "load"};
  return std::ranges::find(kinds, part.description().name) != kinds.end();
}

/// Leads in a row with a load, found from its terminals outwards.
class OwnLeads {
 public:
  OwnLeads(const build::Build& build, const Record& record) : build_(build), record_(record) {}

  std::vector<const build::Lead*> of(const std::string& load, std::size_t channel) {
    const Integrals own = integrals_of(record_, channel);
    std::vector<const build::Lead*> found;
    std::vector<std::string> ends{load};
    std::set<std::string> seen{load};
    while (!ends.empty()) {
      const std::string at = ends.back();
      ends.pop_back();
      for (const build::Lead& lead : build_.leads) {
        const bool begins = lead.from.part == at;
        if (!begins && lead.to.part != at) continue;
        if (std::ranges::find(found, &lead) != found.end() || !carries(lead, own)) continue;
        found.push_back(&lead);
        const std::string& next = begins ? lead.to.part : lead.from.part;
        const part::Part* const part = build_.find(next);
        if (part != nullptr && !is_junction(*part) && seen.insert(next).second) {
          ends.push_back(next);
        }
      }
    }
    return found;
  }

 private:
  bool carries(const build::Lead& lead, const Integrals& current) {
    const int channel = record_.find("leads." + lead.name, "current");
    if (channel < 0) return false;
    const auto [known, is_new] = integrals_.try_emplace(lead.name);
    if (is_new) known->second = integrals_of(record_, static_cast<std::size_t>(channel));
    return is_same(known->second, current);
  }

  const build::Build& build_;
  const Record& record_;
  std::map<std::string, Integrals> integrals_;
};

/// The voltage at the load while it takes `current`, or as near to it as the samples come.
Volt voltage_at(const Record& record, const std::string& load, std::size_t channel,
                Ampere current) {
  const int found = record.find(load, "input voltage");
  const std::vector<double>& i = record.samples_si[channel];
  if (found < 0 || i.empty()) return {};
  const auto nearest =
      std::ranges::min_element(i, {}, [&](double one) { return std::abs(one - current.si()); });
  return Volt::of_si(record.samples_si[static_cast<std::size_t>(found)]
                                      [static_cast<std::size_t>(nearest - i.begin())]);
}

}  // namespace

std::vector<LeadLoss> lead_losses(const build::Build& build, const Record& record,
                                  quantity::Temperature ambient) {
  std::vector<LeadLoss> losses;
  if (!is_sampled(record)) return losses;
  for (const build::Lead& lead : build.leads) {
    const int found = record.find("leads." + lead.name, "current");
    if (found < 0) continue;
    const auto channel = static_cast<std::size_t>(found);
    const Ohm resistance = lead.wire.resistance(ambient);
    const Ampere lasting = Ampere::of_si(lasting_size_si(record, channel));
    const double highest = std::max(std::abs(record.lowest[channel].value_si),
                                    std::abs(record.highest[channel].value_si));
    losses.push_back({&lead, lasting, Ampere::of_si(highest), lasting * resistance,
                      Joule::of_si(resistance.si() * integrals_of(record, channel).square_a2s),
                      lasting / lead.wire.ampacity(ambient).current});
  }
  return losses;
}

std::vector<WayLoss> way_losses(const build::Build& build, const Record& record,
                                quantity::Temperature ambient) {
  std::vector<WayLoss> ways;
  if (!is_sampled(record)) return ways;
  OwnLeads own(build, record);
  for (const run::Service& service : record.services) {
    const int channel = record.find(service.load, "current");
    if (channel < 0) continue;
    const auto taken = static_cast<std::size_t>(channel);
    WayLoss way{.load = service.load, .current = Ampere::of_si(lasting_size_si(record, taken))};
    way.fed = voltage_at(record, service.load, taken, way.current);
    auto leads = own.of(service.load, taken);
    const auto drop = [&](const build::Lead* lead) {
      return (way.current * lead->wire.resistance(ambient)).si();
    };
    std::stable_sort(
        leads.begin(), leads.end(),
        [&](const build::Lead* one, const build::Lead* other) { return drop(one) > drop(other); });
    for (const build::Lead* lead : leads) {
      way.drop += Volt::of_si(drop(lead));
      way.leads.push_back(lead->name);
    }
    ways.push_back(std::move(way));
  }
  return ways;
}

}  // namespace tideover::finding
