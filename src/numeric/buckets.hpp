/// Counts of numbers in fixed buckets, from which quantiles are read: memory does not grow with the
/// numbers counted, and partial counts add up to exactly what counting all at once gives.
///
/// A bucket is what shares sign, exponent and the twelve leading bits of the mantissa: no range has
/// to be known beforehand, and a bucket is never wider than 2^-12 (0.024 %) of what it holds. That
/// is 4096 buckets for each factor of two between the lowest and the highest number, kept only
/// where something fell. Zero, and what is below 2.3e-308, has a bucket of its own; so has each
/// infinity ("never"). Numbers that matter near zero against an offset (a temperature in kelvin)
/// are the better resolved the smaller the offset.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace tideover::numeric {

class Buckets {
 public:
  static constexpr int mantissa_bits = 12;
  static constexpr double relative_width = 1.0 / (1 << mantissa_bits);

  struct Bucket {
    std::int32_t key;  ///< rises with the numbers
    std::uint64_t count;
    bool operator==(const Bucket&) const = default;
  };

  Buckets() = default;
  /// As `buckets()`, `lowest()` and `highest()` told them: rising keys, no count of nought, both
  /// extremes in their buckets. `is_sound` says beforehand whether they are.
  Buckets(std::vector<Bucket> buckets, double lowest, double highest);
  [[nodiscard]] static bool is_sound(std::span<const Bucket> buckets, double lowest,
                                     double highest);

  /// Not a NaN.
  void add(double number);
  void add(const Buckets& others);

  [[nodiscard]] std::uint64_t count() const { return count_; }
  /// Exact; of at least one number.
  [[nodiscard]] double lowest() const;
  [[nodiscard]] double highest() const;

  /// What a share `p` of the numbers does not exceed, 0 <= p <= 1: the number of rank p n, rounded
  /// up, counted from below. Off by no more than a bucket's width; inside a bucket the numbers are
  /// taken as evenly spread. Of at least one number.
  [[nodiscard]] double quantile(double p) const;
  /// The same of a rank, 1 to count().
  [[nodiscard]] double at_rank(std::uint64_t rank) const;

  [[nodiscard]] std::span<const Bucket> buckets() const { return buckets_; }
  bool operator==(const Buckets&) const = default;

 private:
  void add(std::int32_t key, std::uint64_t count);

  std::vector<Bucket> buckets_;  ///< by key
  std::uint64_t count_ = 0;
  double lowest_ = 0.0;
  double highest_ = 0.0;
};

}  // namespace tideover::numeric
