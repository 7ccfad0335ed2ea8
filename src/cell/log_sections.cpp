#include "cell/log_sections.hpp"

#include <algorithm>
#include <cmath>

#include "cell/log_counter.hpp"
#include "cell/log_number.hpp"

namespace tideover::cell {
namespace {

// A counter's jump below this share of all it counts is not worth a section.
constexpr double jump_share = 0.003;
// An interval this many times the usual one is looked at.
constexpr double long_interval = 3.0;
// Without a counter: many times the intervals beside it, and longer than a logger's hiccup.
constexpr double lonely_interval = 8.0;
constexpr double least_gap_s = 10.0;
constexpr double least_jump_v = 0.005;

bool is_numeric(const std::string& word) { return read_number(word, '.').has_value(); }

/// Charge that moved from sample k - 1 to k beyond what any current between the two explains.
double unexplained_as(const Log& log, std::size_t k) {
  const double dt_s = log.time_s[k] - log.time_s[k - 1];
  const double a = log.current_a[k - 1];
  const double b = log.current_a[k];
  const double least_as = std::min({0.0, a, b}) * dt_s;
  const double most_as = std::max({0.0, a, b}) * dt_s;
  const double counted_as = log.counter_c[k] - log.counter_c[k - 1];
  return std::max({0.0, least_as - counted_as, counted_as - most_as});
}

bool is_lonely(const Log& log, std::size_t k) {
  const double dt_s = log.time_s[k] - log.time_s[k - 1];
  if (dt_s < least_gap_s) return false;
  double beside_s = 0.0;
  for (std::size_t j = k > 3 ? k - 3 : 1; j <= std::min(k + 3, log.size() - 1); ++j) {
    if (j != k) beside_s = std::max(beside_s, log.time_s[j] - log.time_s[j - 1]);
  }
  return dt_s > lonely_interval * beside_s &&
         std::abs(log.voltage_v[k] - log.voltage_v[k - 1]) > least_jump_v;
}

}  // namespace

std::vector<Break> find_breaks(const RawLog& raw, std::span<const double> time_s,
                               const std::vector<std::string>& words) {
  std::vector<Break> breaks;
  std::size_t heading = 0;
  std::vector<char> is_name(words.size(), 0);
  for (std::size_t w = 0; w < words.size(); ++w) is_name[w] = is_numeric(words[w]) ? 0 : 1;
  const bool has_label = !raw.label.empty();
  for (std::size_t k = 1; k < time_s.size(); ++k) {
    const bool again = heading < raw.headings_again.size() && raw.headings_again[heading] == k;
    if (again) ++heading;
    const bool other_label = has_label && raw.label[k] != raw.label[k - 1] &&
                             (is_name[raw.label[k]] != 0 || is_name[raw.label[k - 1]] != 0);
    if (again) {
      breaks.push_back({k, Section::Begins::Heading});
    } else if (other_label) {
      breaks.push_back({k, Section::Begins::Label});
    } else if (time_s[k] < time_s[k - 1]) {
      breaks.push_back({k, Section::Begins::Reset});
    }
  }
  return breaks;
}

std::vector<std::size_t> find_gaps(const Log& log, const std::vector<Break>& breaks) {
  std::vector<std::size_t> gaps;
  const double usual_s = usual_interval_s(log.time_s);
  double span_as = 0.0;
  const bool counts = !log.counter_c.empty();
  if (counts) {
    const auto [low, high] = std::ranges::minmax_element(log.counter_c);
    span_as = *high - *low;
  }
  std::size_t next_break = 0;
  for (std::size_t k = 1; k < log.size(); ++k) {
    while (next_break < breaks.size() && breaks[next_break].sample < k) ++next_break;
    if (next_break < breaks.size() && breaks[next_break].sample == k) continue;
    if (log.time_s[k] - log.time_s[k - 1] <= long_interval * usual_s) continue;
    const bool is_gap = counts ? unexplained_as(log, k) > jump_share * span_as : is_lonely(log, k);
    if (is_gap) gaps.push_back(k);
  }
  return gaps;
}

std::vector<Section> make_sections(const Log& log, const RawLog& raw,
                                   const std::vector<Break>& breaks,
                                   const std::vector<std::size_t>& gaps,
                                   const std::vector<std::string>& words) {
  std::vector<Section> sections;
  if (log.size() == 0) return sections;
  sections.reserve(breaks.size() + gaps.size() + 1);
  const auto begin = [&](std::size_t sample, Section::Begins why) {
    if (!sections.empty()) sections.back().end = sample;
    Section section{.first = sample, .end = log.size(), .begins = why};
    if (!raw.label.empty()) section.label = words[raw.label[sample]];
    section.line = raw.line_of(sample);
    sections.push_back(std::move(section));
  };
  begin(0, Section::Begins::Log);
  std::size_t b = 0;
  std::size_t g = 0;
  while (b < breaks.size() || g < gaps.size()) {
    if (g == gaps.size() || (b < breaks.size() && breaks[b].sample < gaps[g])) {
      begin(breaks[b].sample, breaks[b].why);
      ++b;
    } else {
      begin(gaps[g], Section::Begins::Gap);
      ++g;
    }
  }
  return sections;
}

}  // namespace tideover::cell
