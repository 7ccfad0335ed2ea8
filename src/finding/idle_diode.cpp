#include "finding/idle_diode.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "build/parts_of.hpp"
#include "finding/instant.hpp"
#include "part/load/load.hpp"

namespace tideover::finding {

namespace {

/// A diode that carries less than this share of what the loads take does nothing for them.
constexpr double idle_share = 0.01;
/// And with less across it the wrong way than this share of what a load needs there is nothing
/// behind it that could serve: the lower of two sources, or what is left in a capacitor.
constexpr double serves_share = 0.5;
/// One with nearly all of a load's voltage across it while all are served lies beside the load, to
/// catch what comes backwards, and is idle rightly.
constexpr double beside_share = 0.9;
/// A load that goes sooner is not carried at all.
constexpr double at_once_s = 5.0;

/// Whether a load is not served, or loses its service, as the mains goes.
bool goes_at_once(const run::Service& service, const Dark& dark) {
  const quantity::Second soon = dark.begins + quantity::Second::of_si(at_once_s);
  return std::ranges::none_of(service.served, [&](const run::Service::Interval& interval) {
    return interval.from <= dark.begins && std::min(soon, dark.ends) <= interval.to;
  });
}

/// Else an idle diode is idle.
bool a_load_wants(const Evidence& evidence) {
  return std::ranges::any_of(evidence.cases, [](const Case& one) {
    return std::ranges::any_of(darks_of(*one.record), [&](const Dark& dark) {
      return std::ranges::any_of(one.record->services, [&](const run::Service& service) {
        return goes_at_once(service, dark);
      });
    });
  });
}

/// Charge that a channel carries forwards over a run, in ampere seconds.
double forward_as(const run::Record& record, std::string_view part) {
  const int channel = record.find(part, "current");
  if (channel < 0) return 0.0;
  const std::vector<double>& i = record.samples_si[static_cast<std::size_t>(channel)];
  double sum = 0.0;
  for (std::size_t k = 1; k < i.size(); ++k) {
    const double dt_s = (record.instants[k] - record.instants[k - 1]).si();
    sum += 0.5 * dt_s * (std::max(i[k], 0.0) + std::max(i[k - 1], 0.0));
  }
  return sum;
}

bool all_served(const run::Record& record, quantity::Second at) {
  return std::ranges::all_of(record.services, [at](const run::Service& service) {
    return std::ranges::any_of(service.served, [at](const run::Service::Interval& interval) {
      return interval.from < at && at < interval.to;
    });
  });
}

/// Whether the diode lies across a load rather than before it.
bool is_beside(const run::Record& record, const std::vector<double>& reverse_v) {
  for (const run::Service& service : record.services) {
    const int channel = record.find(service.load, "input voltage");
    if (channel < 0) continue;
    const auto& load_v = record.samples_si[static_cast<std::size_t>(channel)];
    for (std::size_t k = 0; k < reverse_v.size(); ++k) {
      if (!all_served(record, record.instants[k])) continue;
      return reverse_v[k] >= beside_share * load_v[k];
    }
  }
  return false;
}

/// The highest voltage against a diode that does nothing in this run; nothing where it has its
/// work.
std::optional<double> idle_behind_v(const run::Record& record, const std::string& diode) {
  const int reverse = record.find(diode, "reverse voltage");
  if (reverse < 0 || record.instants.empty() || record.highest.empty()) return std::nullopt;
  const auto channel = static_cast<std::size_t>(reverse);
  double loads_as = 0.0;
  for (const run::Service& service : record.services) {
    loads_as = std::max(loads_as, forward_as(record, service.load));
  }
  if (forward_as(record, diode) > idle_share * loads_as) return std::nullopt;
  if (is_beside(record, record.samples_si[channel])) return std::nullopt;
  return record.highest[channel].value_si;
}

double least_accepted_v(const build::Build& build) {
  double least_v = HUGE_VAL;
  for (const part::Load* load : parts_of<part::Load>(build)) {
    least_v = std::min(least_v, load->accepts.low().si());
  }
  return least_v;
}

}  // namespace

std::optional<double> idle_while_wanted_v(const Evidence& evidence, const std::string& diode) {
  if (!a_load_wants(evidence)) return std::nullopt;
  double behind_v = 0.0;
  for (const Case& one : evidence.cases) {
    if (one.record->instants.empty()) continue;
    // One run in which it works is enough to clear it.
    const auto in_this_run = idle_behind_v(*one.record, diode);
    if (!in_this_run) return std::nullopt;
    behind_v = std::max(behind_v, *in_this_run);
  }
  if (behind_v < serves_share * least_accepted_v(evidence.build)) return std::nullopt;
  return behind_v;
}

}  // namespace tideover::finding
