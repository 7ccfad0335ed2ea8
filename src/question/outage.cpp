#include "question/outage.hpp"

#include <algorithm>
#include <limits>

namespace tideover::question {

using quantity::Second;

namespace {

/// Events and the ends of service intervals of one instant may differ by rounding.
constexpr double same_instant_s = 1e-6;
/// What ended a load's service lies at most this far back: ride-through and board delays.
constexpr double cause_within_s = 90.0;
/// One thing that stops makes the next stop within this time: hold-up of capacitors and delays of
/// boards. Assumed.
constexpr double chain_within_s = 5.0;

struct Gap {
  Second from;
  Second to;
  bool recovered = false;
};

Second end_of(const run::Record& record) {
  Second end;
  if (!record.stretches.empty()) end = record.stretches.back().ends;
  if (!record.instants.empty()) end = std::max(end, record.instants.back());
  return end;
}

/// Times from `begin` to `end` in which the load is not served.
std::vector<Gap> gaps_of(const run::Service& service, Second begin, Second end) {
  std::vector<Gap> gaps;
  Second clear = begin;
  for (const auto& [from, to] : service.served) {
    if (to < begin) continue;
    if (from >= end) break;
    if (from.si() > clear.si() + same_instant_s) gaps.push_back({clear, from, true});
    clear = std::max(clear, to);
  }
  if (clear.si() < end.si() - same_instant_s || !service.serves_at_end) {
    gaps.push_back({clear, end, false});
  }
  return gaps;
}

/// Lost for good: not back while the mains is away, or only after a cut-off (a board that
/// reconnects for a moment does not bring service back).
bool is_loss(const Gap& gap, const Outage& outage) {
  if (!gap.recovered || gap.to.si() >= outage.ends.si() - same_instant_s) return true;
  return outage.cut_off && (outage.begins + *outage.cut_off) <= gap.to;
}

/// Where mains comes back at the very instant of the cut-off, loads go a moment after both.
bool belongs_to(const Gap& gap, const Outage& outage) {
  if (gap.from < outage.ends) return true;
  if (!outage.cut_off) return false;
  return (gap.from - outage.begins - *outage.cut_off).si() <= at_loss_s;
}

Serving serving_of(const run::Service& service, const Outage& outage, Second end) {
  using When = Interruption::When;
  Serving serving{.load = service.load, .served_before = serves_at(service, outage.begins)};
  for (const Gap& gap : gaps_of(service, outage.begins, end)) {
    if (!belongs_to(gap, outage)) {
      if ((gap.from - outage.ends).si() > at_return_s) break;
      serving.interruptions.push_back({When::AtReturn, gap.from, gap.to});
    } else if (serving.lost_after || is_loss(gap, outage)) {
      if (!serving.lost_after) serving.lost_after = gap.from - outage.begins;
      serving.back_after.reset();
      if (gap.recovered && gap.to >= outage.ends) serving.back_after = gap.to - outage.ends;
    } else {
      const bool at_loss = (gap.from - outage.begins).si() <= at_loss_s;
      serving.interruptions.push_back({at_loss ? When::AtLoss : When::During, gap.from, gap.to});
    }
  }
  return serving;
}

bool is_load(const run::Record& record, const std::string& part) {
  return std::ranges::any_of(record.services,
                             [&](const run::Service& service) { return service.load == part; });
}

bool stops(const run::Event& event) {
  return event.effect == network::Effect::Stops || event.effect == network::Effect::Breaks;
}

/// An adapter that stops because it has no mains says nothing that the outage does not.
bool is_for_want_of_mains(const std::vector<run::Event>& events, std::size_t k) {
  for (std::size_t i = k; i-- > 0;) {
    if (events[i].part != events[k].part || !is_of_the_mains(events[i])) continue;
    return events[i].effect == network::Effect::MainsGoes;
  }
  return false;
}

bool has_resumed(const std::vector<run::Event>& events, std::size_t k, Second instant) {
  for (std::size_t i = k + 1; i < events.size() && events[i].at <= instant; ++i) {
    if (events[i].part == events[k].part && events[i].effect == network::Effect::Resumes) {
      return true;
    }
  }
  return false;
}

/// What took something away at `instant`, in words. Of parts that stop one after another the first
/// is the cause; where none has stopped, whatever a part did last.
std::string cause_of(const run::Record& record, Second instant) {
  const run::Event* cause = nullptr;
  const run::Event* last = nullptr;
  double since_s = instant.si() - cause_within_s;
  for (std::size_t k = record.events.size(); k-- > 0;) {
    const run::Event& event = record.events[k];
    if (event.at.si() > instant.si() + same_instant_s || is_of_the_mains(event)) continue;
    if (event.at.si() < since_s) break;
    if (is_load(record, event.part) || is_for_want_of_mains(record.events, k)) continue;
    if (last == nullptr) last = &event;
    if (!stops(event) || has_resumed(record.events, k, instant)) continue;
    cause = &event;
    since_s = event.at.si() - chain_within_s;
  }
  if (cause == nullptr) cause = last;
  return cause == nullptr ? std::string{} : cause->part + " " + cause->words;
}

void note_losses(Outage& outage) {
  std::optional<Second> first;
  const auto note = [&](Second at) { first = std::min(first.value_or(at), at); };
  std::size_t lost = 0;
  for (const Serving& serving : outage.servings) {
    if (serving.lost_after) {
      ++lost;
      note(*serving.lost_after);
      outage.first_lost =
          std::min(outage.first_lost.value_or(*serving.lost_after), *serving.lost_after);
      outage.last_lost =
          std::max(outage.last_lost.value_or(*serving.lost_after), *serving.lost_after);
    }
    for (const Interruption& interruption : serving.interruptions) {
      if (interruption.when == Interruption::When::AtReturn) continue;
      note(interruption.from - outage.begins);
    }
  }
  if (lost < outage.servings.size()) outage.last_lost.reset();
  outage.carried_whole = !first;
  outage.carried = first.value_or(outage.length());
}

/// Rounding may put a cut-off that ends the outage just behind its end.
void note_cut_off(Outage& outage, const run::Record& record) {
  for (const run::Extreme& cut_off : record.pack_cut_offs) {
    if (cut_off.at < outage.begins || cut_off.at.si() > outage.ends.si() + same_instant_s) continue;
    outage.cut_off = cut_off.at - outage.begins;
    return;
  }
}

/// What happens after the mains is back and before `next`, the next outage or the record's end.
void note_recharge(Outage& outage, const run::Record& record, Second next) {
  if (!outage.mains_returns) return;
  for (const run::Extreme& full : record.pack_fulls) {
    if (full.at < outage.ends || full.at > next) continue;
    outage.full_after = full.at - outage.ends;
    return;
  }
  // What the user stopped was not waited for to the end.
  if (record.is_partial) return;
  for (const run::StretchSpan& span : record.stretches) {
    if (span.begins >= outage.ends && span.ends <= next && !span.ended_as_asked) {
      outage.waited_for_full = true;
    }
  }
}

std::vector<Outage> spans_without_mains(const run::Record& record) {
  std::vector<Outage> found;
  bool inside = false;
  for (const run::StretchSpan& span : record.stretches) {
    if (span.has_mains) {
      if (inside) found.back().mains_returns = true;
      inside = false;
      continue;
    }
    if (!inside) found.push_back({.begins = span.begins, .ends = span.ends, .words = span.words});
    inside = true;
    found.back().ends = span.ends;
  }
  return found;
}

}  // namespace

bool serves_at(const run::Service& service, Second instant) {
  return std::ranges::any_of(service.served, [&](const run::Service::Interval& interval) {
    return interval.from.si() <= instant.si() + same_instant_s && interval.to >= instant;
  });
}

bool is_of_the_mains(const run::Event& event) {
  return event.effect == network::Effect::MainsGoes ||
         event.effect == network::Effect::MainsReturns;
}

std::vector<Outage> outages_of(const run::Record& record) {
  std::vector<Outage> found = spans_without_mains(record);
  for (std::size_t k = 0; k < found.size(); ++k) {
    Outage& outage = found[k];
    const Second next = k + 1 < found.size() ? found[k + 1].begins : end_of(record);
    note_cut_off(outage, record);
    for (const run::Service& service : record.services) {
      outage.servings.push_back(serving_of(service, outage, next));
    }
    note_losses(outage);
    note_recharge(outage, record, next);
    if (!outage.carried_whole) {
      outage.ended_by = cause_of(record, outage.begins + outage.carried);
    }
    if (outage.cut_off) outage.cut_off_by = cause_of(record, outage.begins + *outage.cut_off);
  }
  return found;
}

}  // namespace tideover::question
