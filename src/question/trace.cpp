#include "question/trace.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace tideover::question {

using quantity::Second;

namespace {

/// The last sample at or before `at`: at an event the one behind it.
std::size_t sample_at(const run::Record& record, Second at) {
  const auto behind = std::upper_bound(record.instants.begin(), record.instants.end(), at);
  return behind == record.instants.begin()
             ? 0
             : static_cast<std::size_t>(behind - record.instants.begin()) - 1;
}

}  // namespace

std::vector<Fold> folds_of(const run::Record& record) {
  std::vector<Fold> folds;
  if (record.instants.empty()) return folds;
  const double end_s = record.instants.back().si();
  double whole = 0.0;
  double from_s = 0.0;
  const auto add = [&](double to_s) {
    if (to_s <= from_s) return;
    folds.push_back({from_s, to_s, 0.5 + std::log10(1.0 + to_s - from_s)});
    whole += folds.back().share;
    from_s = to_s;
  };
  for (const run::StretchSpan& span : record.stretches) add(std::min(end_s, span.ends.si()));
  add(end_s);
  for (Fold& fold : folds) fold.share /= whole;
  return folds;
}

std::vector<std::size_t> told_instants(const run::Record& record, std::size_t most) {
  if (record.instants.empty()) return {};
  const std::size_t last = record.instants.size() - 1;
  std::set<std::size_t> kept{sample_at(record, record.instants.front()), last};
  std::set<std::size_t> events;
  for (const run::Event& event : record.events) events.insert(sample_at(record, event.at));
  const std::size_t room = most * 3 / 4;
  const std::size_t stride = events.size() / room + 1;
  std::size_t count = 0;
  for (const std::size_t k : events) {
    if (count++ % stride == 0) kept.insert(k);
  }
  for (const std::size_t k : events) {
    const auto same =
        std::lower_bound(record.instants.begin(), record.instants.end(), record.instants[k]);
    if (kept.size() < room && same != record.instants.begin()) {
      kept.insert(static_cast<std::size_t>(same - record.instants.begin()) - 1);
    }
  }
  const std::vector<Fold> folds = folds_of(record);
  const double free = static_cast<double>(most - kept.size());
  for (const Fold& fold : folds) {
    const auto parts = static_cast<int>(free * fold.share);
    for (int part = 1; part <= parts; ++part) {
      const double at_s = fold.from_s + (fold.to_s - fold.from_s) * part / parts;
      kept.insert(sample_at(record, Second::of_si(at_s)));
    }
  }
  return {kept.begin(), kept.end()};
}

}  // namespace tideover::question
