#include "question/passage.hpp"

#include <algorithm>
#include <span>

namespace tideover::question {

using quantity::Second;
using quantity::Volt;
using quantity::Watt;
using run::Record;
using Outcome = Passage::Outcome;

namespace {

/// Instants of services, events and samples may differ by rounding.
constexpr double same_instant_s = 1e-6;

/// One channel's samples from a change to its end; the first of them is the last one before.
struct Window {
  std::span<const Second> at;
  std::span<const double> value;
};

Window window_of(const Record& record, std::size_t channel, const SourceChange& change) {
  const auto& all = record.instants;
  const auto begin = std::ranges::lower_bound(all, change.at);
  const auto end = std::ranges::upper_bound(all, change.until);
  auto first = static_cast<std::size_t>(begin - all.begin());
  if (first == all.size()) first = all.size() - 1;
  const auto count = std::max<std::size_t>(1, static_cast<std::size_t>(end - all.begin()) - first);
  return {std::span(all).subspan(first, count),
          std::span(record.samples_si[channel]).subspan(first, count)};
}

/// How much of the segment from `a` to `b` lies below `limit`, 0 to 1.
double share_below(double a, double b, double limit) {
  if (a >= limit && b >= limit) return 0.0;
  if (a < limit && b < limit) return 1.0;
  const double low = std::min(a, b);
  return (limit - low) / (std::max(a, b) - low);
}

void measure(const Window& window, const SourceChange& change, Passage& found) {
  const double low = found.accepts.low.si();
  const double high = found.accepts.high.si();
  found.before = found.lowest = found.highest = Volt::of_si(window.value.front());
  for (std::size_t k = 0; k < window.at.size(); ++k) {
    const double v = window.value[k];
    const Second after = window.at[k] - change.at;
    if (v < found.lowest.si()) {
      found.lowest = Volt::of_si(v);
      found.lowest_after = after;
    }
    if (v > found.highest.si()) {
      found.highest = Volt::of_si(v);
      found.highest_after = after;
    }
    if (k == 0) continue;
    const double last = window.value[k - 1];
    const Second dt = window.at[k] - window.at[k - 1];
    found.below += share_below(last, v, low) * dt;
    found.above += share_below(-last, -v, -high) * dt;
  }
  const double end = window.value.back();
  found.is_fed_again = end >= low && end <= high;
}

void time_without_source(const Window& window, const SourceChange& change, Passage& found) {
  const double still = falls_share * found.before.si();
  const Second lowest_at = change.at + found.lowest_after;
  Second left = change.at;
  for (std::size_t k = 0; k < window.at.size() && window.at[k] <= lowest_at; ++k) {
    if (window.value[k] >= still) left = window.at[k];
  }
  if (found.lowest.si() < still) found.without_source = lowest_at - left;
}

/// What the load did in the run: when it stopped serving, if it did.
std::optional<Second> lost_in(const run::Service& service, const SourceChange& change,
                              bool& served_before) {
  for (const auto& [from, to] : service.served) {
    const bool before = from.si() <= change.at.si() + same_instant_s && to >= change.at;
    if (!before) continue;
    served_before = true;
    if (to.si() <= change.until.si() + same_instant_s) return to - change.at;
  }
  return std::nullopt;
}

/// A load that serves at the end of its record was not lost there.
std::optional<Second> lost_after(const Record& record, const std::string& load,
                                 const SourceChange& change, bool& served_before) {
  const auto service = std::ranges::find(record.services, load, &run::Service::load);
  if (service == record.services.end()) return std::nullopt;
  const std::optional<Second> lost = lost_in(*service, change, served_before);
  const bool is_end = lost && !record.instants.empty() && service->serves_at_end &&
                      (change.at + *lost).si() >= record.instants.back().si() - same_instant_s;
  return is_end ? std::nullopt : lost;
}

Outcome outcome_of(const Passage& found, const SourceChange& change) {
  using What = SourceChange::What;
  if (!found.lost_after) {
    return found.out_of_range().si() > 0.0 ? Outcome::Rides : Outcome::InRange;
  }
  const bool is_switched_off = change.what == What::Switch && !found.is_fed_again;
  return change.what == What::CutOff || is_switched_off ? Outcome::Dark : Outcome::Fails;
}

}  // namespace

double Passage::dip_share() const {
  const double room = before.si() - accepts.low.si();
  return room > 0.0 ? (before.si() - lowest.si()) / room : 1.0;
}

bool Passage::is_tight() const {
  return outcome == Outcome::Rides && out_of_range() > spent_share * accepts.rides;
}

std::string_view in_words(Outcome outcome) {
  switch (outcome) {
    case Outcome::InRange: return "in range throughout";
    case Outcome::Rides: return "rides through";
    case Outcome::Fails: return "does not ride through";
    case Outcome::Dark: return "is left without a source";
    case Outcome::NotServed: break;
  }
  return "not served before";
}

Passage passage_of(const Record& record, const AcceptedRange& load, const SourceChange& change) {
  Passage found{.accepts = load};
  const int volts = record.find(load.load, "input voltage");
  const int amps = record.find(load.load, "current");
  if (volts < 0 || amps < 0 || record.instants.empty()) return found;
  const Window window = window_of(record, static_cast<std::size_t>(volts), change);
  measure(window, change, found);
  const Window currents = window_of(record, static_cast<std::size_t>(amps), change);
  found.draw = Watt::of_si(found.before.si() * currents.value.front());
  time_without_source(window, change, found);
  bool served_before = false;
  found.lost_after = lost_after(record, load.load, change, served_before);
  if (served_before) found.outcome = outcome_of(found, change);
  return found;
}

std::vector<Passage> passages_of(const Record& record, const std::vector<AcceptedRange>& loads,
                                 const SourceChange& change) {
  std::vector<Passage> all;
  all.reserve(loads.size());
  for (const AcceptedRange& load : loads) all.push_back(passage_of(record, load, change));
  return all;
}

}  // namespace tideover::question
