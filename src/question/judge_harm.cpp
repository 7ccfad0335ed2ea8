#include "question/judge_harm.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "part/diode/diode.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

namespace {

/// A diode that carries less than this share of what the loads take does nothing for them.
constexpr double idle_share = 0.01;
/// And with more than this across it the wrong way it is not merely the lower of two sources.
constexpr double blocks_v = 0.5;
/// One with nearly all of a load's voltage across it while all are served lies beside the load, to
/// catch what comes backwards, and is idle rightly.
constexpr double beside_share = 0.9;

bool is_diode(const part::Part& part) {
  return dynamic_cast<const part::Diode*>(&part) != nullptr ||
         dynamic_cast<const part::IdealDiode*>(&part) != nullptr;
}

bool has_taps(const build::Build& build, const std::string& name) {
  const part::Part* const part = build.find(name);
  return part != nullptr && std::ranges::any_of(part->terminals(), [](const auto& terminal) {
           return terminal.role == part::Role::Tap;
         });
}

/// Whether a load goes at once or is never served: else an idle diode is idle.
bool a_load_wants(const Evidence& evidence) {
  for (const Trial* trial : evidence.trials()) {
    for (const Outage& outage : trial->outages) {
      if (!outage.carried_whole && outage.carried.si() < at_loss_s) return true;
    }
  }
  return false;
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

/// Over all runs; one in which it works is enough to clear it.
double always_idle_behind_v(const Evidence& evidence, const std::string& diode) {
  double behind_v = 0.0;
  for (const Trial* trial : evidence.trials()) {
    if (trial->record.instants.empty()) continue;
    const auto in_this_run = idle_behind_v(trial->record, diode);
    if (!in_this_run) return 0.0;
    behind_v = std::max(behind_v, *in_this_run);
  }
  return behind_v;
}

void judge_diodes(const Evidence& evidence, std::vector<Judgement>& found) {
  if (!a_load_wants(evidence)) return;
  for (const auto& part : evidence.build.parts) {
    if (!is_diode(*part)) continue;
    const double behind_v = always_idle_behind_v(evidence, part->name);
    if (behind_v < blocks_v) continue;
    found.push_back(
        {Matter::Polarity, Answer::Fails,
         fmt::format("{} is fed backwards: it feeds nothing in any run, and its cathode stands up "
                     "to {} above its anode while a device goes without.",
                     part->name, quantity::show(quantity::Volt::of_si(behind_v))),
         part->name + ": turn it round; the ring marks the cathode, where current comes out.",
         part->name + " is fed backwards"});
  }
}

}  // namespace

std::vector<Judgement> judge_polarity(const Evidence& evidence) {
  std::vector<Judgement> found;
  std::set<std::string> told;
  for (const Trial* trial : evidence.trials()) {
    for (const run::Overload& overload : trial->record.overloads) {
      if (!overload.is_polarity || overload.longest <= overload.stands) continue;
      if (!told.insert(overload.part).second) continue;
      const run::ChannelInfo& channel = trial->record.channels[overload.channel];
      found.push_back(
          {Matter::Polarity, Answer::Fails,
           fmt::format("{} is fed backwards: {} {}, {} in all, first {} ({}).", overload.part,
                       channel.name, show_value(channel, overload.worst.value_si),
                       show_time(overload.total), show_instant(overload.first, trial->outages),
                       trial->words),
           overload.part + (has_taps(evidence.build, overload.part)
                                ? ": two of the leads to its taps and ends are swapped."
                                : ": plus and minus are swapped, at it or on the way to it."),
           overload.part + " is fed backwards"});
    }
  }
  // What is the wrong way round elsewhere leaves diodes idle that are in order.
  if (found.empty() && judge_cut_off(evidence).empty()) judge_diodes(evidence, found);
  return found;
}

std::vector<Judgement> judge_broken(const Evidence& evidence) {
  std::vector<Judgement> found;
  std::set<std::string> told;
  for (const Trial* trial : evidence.trials()) {
    const run::Record& record = trial->record;
    for (const run::Event& event : record.events) {
      if (event.effect != network::Effect::Breaks || !told.insert(event.part).second) continue;
      const int channel = record.find(event.part, "current");
      const std::string current =
          channel < 0 || record.highest.empty()
              ? ""
              : ", having carried up to " +
                    show_value(record.channels[static_cast<std::size_t>(channel)],
                               record.highest[static_cast<std::size_t>(channel)].value_si);
      found.push_back({Matter::Broken, Answer::Fails,
                       fmt::format("{} {} {}{} ({}).", event.part, event.words,
                                   show_instant(event.at, trial->outages), current, trial->words),
                       event.part +
                           ": find what takes so much there before a stronger one goes in; "
                           "the wire behind it must stand what it lets through.",
                       event.part + " " + event.words});
    }
  }
  return found;
}

std::vector<Judgement> judge_cut_off(const Evidence& evidence) {
  const build::Start& start = evidence.build.start;
  if (!start.is_settled || !start.charge.empty()) return {};
  for (const Trial* trial : evidence.trials()) {
    const auto& cut_offs = trial->record.pack_cut_offs;
    if (cut_offs.empty() || cut_offs.front().at.si() > 0.0) continue;
    return {{Matter::Broken, Answer::Fails,
             "The pack is cut off from the start and feeds nothing (" + trial->words + ").",
             "what the protection board sees of each group, and what it waits for to let the pack "
             "discharge again.",
             "the pack is cut off from the start"}};
  }
  return {};
}

}  // namespace tideover::question
