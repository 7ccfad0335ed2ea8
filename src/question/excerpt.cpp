#include "question/excerpt.hpp"

#include <algorithm>

namespace tideover::question {

using quantity::Second;
using run::Record;

namespace {

void take_samples(const Record& record, Second from, Second to, Second zero, Record& into) {
  const auto& all = record.instants;
  auto first = std::ranges::lower_bound(all, from) - all.begin();
  if (first > 0) --first;  // a line has its value at the very begin too
  const auto last = std::ranges::upper_bound(all, to) - all.begin();
  for (auto k = first; k < last; ++k) {
    into.instants.push_back(all[static_cast<std::size_t>(k)] - zero);
  }
  for (const std::vector<double>& samples : record.samples_si) {
    into.samples_si.emplace_back(samples.begin() + first, samples.begin() + last);
  }
}

}  // namespace

Record excerpt(const Record& record, const SourceChange& change) {
  const Second zero = change.at;
  const Second from = zero - Second::of_si(lead_in_s);
  const Second to = change.until;
  Record cut;
  cut.timeline = record.timeline;
  cut.channels = record.channels;
  cut.outcome = record.outcome;
  cut.is_partial = record.is_partial;
  take_samples(record, from, to, zero, cut);
  for (run::Event event : record.events) {
    if (event.at < zero || event.at > to) continue;
    event.at -= zero;
    cut.events.push_back(std::move(event));
  }
  for (run::StretchSpan span : record.stretches) {
    if (span.ends < from || span.begins > to) continue;
    span.begins = std::max(span.begins, from) - zero;
    span.ends = std::min(span.ends, to) - zero;
    if (span.ends > span.begins) cut.stretches.push_back(std::move(span));
  }
  for (const run::Service& service : record.services) {
    run::Service& left = cut.services.emplace_back();
    left.load = service.load;
    left.serves_at_end = service.serves_at_end;
    for (const auto& [begin, end] : service.served) {
      if (end < from || begin > to) continue;
      left.served.push_back({std::max(begin, from) - zero, std::min(end, to) - zero});
    }
  }
  return cut;
}

}  // namespace tideover::question
