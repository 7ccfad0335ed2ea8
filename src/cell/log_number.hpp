/// Numbers of a log, correctly rounded and fast: a whole mantissa times an exact power of ten
/// (Clinger 1990, "How to read floating point numbers accurately", the case that needs no more).
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace tideover::cell {

/// Powers of ten that a double holds exactly.
inline constexpr std::array<double, 23> exact_powers_scale{
    1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
    1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/// Sign, digits, `mark`, digits at `at`, divided by ten to the power of `shift` (3 makes volts of
/// millivolts without rounding twice). Returns the byte behind them, or nullptr when there is no
/// number or it needs the careful way. `number` is the nearest double.
[[nodiscard]] inline const char* scan_number(const char* at, const char* end, char mark, int shift,
                                             double& number) {
  const bool negative = at != end && *at == '-';
  if (negative || (at != end && *at == '+')) ++at;
  std::uint64_t mantissa = 0;
  const char* first = at;
  while (at != end && static_cast<unsigned char>(*at - '0') < 10) {
    mantissa = mantissa * 10 + static_cast<unsigned char>(*at - '0');
    ++at;
  }
  auto digits = at - first;
  int exponent = -shift;
  if (at != end && *at == mark) {
    first = ++at;
    while (at != end && static_cast<unsigned char>(*at - '0') < 10) {
      mantissa = mantissa * 10 + static_cast<unsigned char>(*at - '0');
      ++at;
    }
    digits += at - first;
    exponent -= static_cast<int>(at - first < 64 ? at - first : 64);
  }
  const bool is_exact =
      digits > 0 && digits <= 18 && mantissa <= (std::uint64_t{1} << 53) && exponent >= -22;
  if (!is_exact || (at != end && (*at == 'e' || *at == 'E'))) return nullptr;
  const auto whole = static_cast<double>(mantissa);
  number = exponent > 0 ? whole * exact_powers_scale[static_cast<std::size_t>(exponent)]
                        : whole / exact_powers_scale[static_cast<std::size_t>(-exponent)];
  if (negative) number = -number;
  return at;
}

/// A whole field as a number: blanks around it, exponents, thousands marks (`1,234.5`, `1.234,5`),
/// either decimal mark unless `mark` tells it apart from thousands. Empty if it is none or not
/// finite.
[[nodiscard]] std::optional<double> read_number(std::string_view field, char mark, int shift = 0);

/// What testers write where there is no reading: nothing, `-`, `--`, `nan`, `n/a`, `OL`, `null`.
[[nodiscard]] bool means_no_reading(std::string_view field);

}  // namespace tideover::cell
