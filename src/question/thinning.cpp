#include "question/thinning.hpp"

#include <algorithm>
#include <numeric>
#include <type_traits>
#include <utility>

namespace tideover::question {

namespace {

constexpr double before_s = 0.05;
constexpr double after_s = 0.5;

/// Samples near events; every second, third ... of them where there are too many.
std::vector<std::size_t> near_events(const run::Record& record, std::size_t most) {
  std::vector<std::size_t> near;
  std::size_t next = 0;
  for (const run::Event& event : record.events) {
    const auto begin = std::lower_bound(record.instants.begin(), record.instants.end(),
                                        quantity::Second::of_si(event.at.si() - before_s));
    std::size_t k = std::max(next, static_cast<std::size_t>(begin - record.instants.begin()));
    for (; k < record.instants.size() && record.instants[k].si() <= event.at.si() + after_s; ++k) {
      near.push_back(k);
    }
    next = k;
  }
  if (near.size() <= most) return near;
  const std::size_t stride = near.size() / most + 1;
  std::vector<std::size_t> fewer;
  for (std::size_t k = 0; k < near.size(); k += stride) fewer.push_back(near[k]);
  return fewer;
}

}  // namespace

std::vector<std::size_t> kept_instants(const run::Record& record, std::size_t most) {
  const std::size_t all = record.instants.size();
  std::vector<std::size_t> kept(all);
  std::iota(kept.begin(), kept.end(), std::size_t{0});
  if (all <= most) return kept;
  kept = near_events(record, most / 2);
  const std::size_t parts = most - kept.size() - 2;
  const double begin_s = record.instants.front().si();
  const double part_s = (record.instants.back().si() - begin_s) / static_cast<double>(parts);
  double next_s = begin_s;
  for (std::size_t k = 0; k < all; ++k) {
    if (record.instants[k].si() < next_s) continue;
    kept.push_back(k);
    if (part_s <= 0.0) break;
    while (next_s <= record.instants[k].si()) next_s += part_s;
  }
  kept.push_back(all - 1);
  std::ranges::sort(kept);
  kept.erase(std::unique(kept.begin(), kept.end()), kept.end());
  return kept;
}

void thin(run::Record& record, std::size_t most) {
  if (record.instants.size() <= most) return;
  const std::vector<std::size_t> kept = kept_instants(record, most);
  const auto take = [&](auto& all) {
    std::remove_reference_t<decltype(all)> left;
    left.reserve(kept.size());
    for (const std::size_t k : kept) left.push_back(all[k]);
    all = std::move(left);
  };
  take(record.instants);
  for (std::vector<double>& samples : record.samples_si) take(samples);
}

}  // namespace tideover::question
