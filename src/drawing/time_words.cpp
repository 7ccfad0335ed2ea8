#include "drawing/time_words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "base/contract.hpp"

namespace tideover::drawing {

namespace {

constexpr std::int64_t ns_per_s = 1'000'000'000;

std::string trimmed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

// What is left of a time below one minute, > 0.
std::string seconds_part(std::int64_t ns) {
  const auto count = static_cast<double>(ns);
  if (ns >= ns_per_s) return trimmed(count / 1e9, 9) + " s";
  if (ns >= 1'000'000) return trimmed(count / 1e6, 6) + " ms";
  if (ns >= 1'000) return trimmed(count / 1e3, 3) + " µs";
  return fmt::format("{} ns", ns);
}

std::string clock_words(std::int64_t ns) {
  std::string text;
  const auto add = [&text](const std::string& part) {
    if (!text.empty()) text += ' ';
    text += part;
  };
  const auto take = [&ns](double unit_s) {
    const std::int64_t unit = static_cast<std::int64_t>(unit_s) * ns_per_s;
    const std::int64_t count = ns / unit;
    ns %= unit;
    return count;
  };
  if (const auto days = take(day_s); days > 0)
    add(fmt::format("{} day{}", days, days > 1 ? "s" : ""));
  if (const auto hours = take(hour_s); hours > 0) add(fmt::format("{} h", hours));
  if (const auto minutes = take(minute_s); minutes > 0) add(fmt::format("{} min", minutes));
  if (ns > 0) add(seconds_part(ns));
  return text;
}

}  // namespace

std::string time_label(double seconds, double resolution_s) {
  TIDEOVER_EXPECT(resolution_s > 0.0, "a resolution above zero");
  TIDEOVER_EXPECT(std::abs(seconds) <= 1000.0 * year_s, "a time within 1000 years");
  const double size = std::round(std::abs(seconds) / resolution_s) * resolution_s;
  const std::string sign = seconds < 0.0 ? "\u2212" : "";
  if (resolution_s >= year_s && size > 0.0) return sign + trimmed(size / year_s, 2) + " yr";
  // Whole days beyond what nanoseconds in 64 bits hold.
  if (size > 9e9) return sign + trimmed(size / day_s, 0) + " days";
  const auto ns = static_cast<std::int64_t>(std::llround(size * 1e9));
  return ns == 0 ? "0" : sign + clock_words(ns);
}

std::string duration_in_words(double seconds) {
  const double size = std::abs(seconds);
  if (size >= year_s) return (seconds < 0.0 ? "\u2212" : "") + trimmed(size / year_s, 1) + " yr";
  if (size >= 10.0 * day_s) return time_label(seconds, day_s);
  if (size >= day_s) return time_label(seconds, hour_s);
  if (size >= hour_s) return time_label(seconds, minute_s);
  if (size >= minute_s) return time_label(seconds, 1.0);
  if (size < 1e-9) return "0";
  return time_label(seconds, std::max(1e-9, std::pow(10.0, std::floor(std::log10(size)) - 2.0)));
}

}  // namespace tideover::drawing
