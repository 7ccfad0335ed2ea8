#include "numeric/buckets.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <utility>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

constexpr int dropped_bits = 52 - Buckets::mantissa_bits;
constexpr double least_normal = std::numeric_limits<double>::min();

/// Of a magnitude: exponent and leading bits as one number; 0 below the least normal double.
std::int32_t magnitude_key(double magnitude) {
  if (magnitude < least_normal) return 0;
  return static_cast<std::int32_t>(std::bit_cast<std::uint64_t>(magnitude) >> dropped_bits);
}

std::int32_t key_of(double number) {
  const std::int32_t key = magnitude_key(std::abs(number));
  return number < 0.0 ? -key : key;
}

/// The least magnitude of a bucket.
double least_of(std::int32_t magnitude_key) {
  if (magnitude_key == 0) return 0.0;
  return std::bit_cast<double>(static_cast<std::uint64_t>(magnitude_key) << dropped_bits);
}

/// Where the `share` of a bucket ends, from its lower to its upper edge.
double inside(std::int32_t key, double share) {
  const std::int32_t magnitude = std::abs(key);
  const double near = least_of(magnitude);
  if (key == 0 || std::isinf(near)) return key < 0 ? -near : near;
  // The topmost finite bucket ends at infinity: its own width is one of the bucket before it.
  const double far = std::isinf(least_of(magnitude + 1)) ? std::numeric_limits<double>::max()
                                                         : least_of(magnitude + 1);
  return key > 0 ? near + share * (far - near) : -far + share * (far - near);
}

}  // namespace

Buckets::Buckets(std::vector<Bucket> buckets, double lowest, double highest)
    : buckets_(std::move(buckets)), lowest_(lowest), highest_(highest) {
  TIDEOVER_EXPECT(is_sound(buckets_, lowest, highest), "buckets that nothing can have filled");
  for (const Bucket& bucket : buckets_) count_ += bucket.count;
}

bool Buckets::is_sound(std::span<const Bucket> buckets, double lowest, double highest) {
  if (buckets.empty()) return lowest == 0.0 && highest == 0.0;
  if (std::isnan(lowest) || std::isnan(highest) || lowest > highest) return false;
  const bool rise =
      std::ranges::adjacent_find(buckets, std::greater_equal<>(), &Bucket::key) == buckets.end();
  const bool filled = std::ranges::none_of(buckets, [](const Bucket& b) { return b.count == 0; });
  return rise && filled && buckets.front().key == key_of(lowest) &&
         buckets.back().key == key_of(highest);
}

void Buckets::add(std::int32_t key, std::uint64_t count) {
  const auto place = std::ranges::lower_bound(buckets_, key, {}, &Bucket::key);
  if (place != buckets_.end() && place->key == key) {
    place->count += count;
  } else {
    buckets_.insert(place, Bucket{key, count});
  }
  count_ += count;
}

void Buckets::add(double number) {
  TIDEOVER_EXPECT(!std::isnan(number), "a number to count");
  if (number == 0.0) number = 0.0;  // of two zeros one, whichever came first
  lowest_ = count_ == 0 ? number : std::min(lowest_, number);
  highest_ = count_ == 0 ? number : std::max(highest_, number);
  add(key_of(number), 1);
}

void Buckets::add(const Buckets& others) {
  if (others.count_ == 0) return;
  lowest_ = count_ == 0 ? others.lowest_ : std::min(lowest_, others.lowest_);
  highest_ = count_ == 0 ? others.highest_ : std::max(highest_, others.highest_);
  for (const Bucket& bucket : others.buckets_) add(bucket.key, bucket.count);
}

double Buckets::lowest() const {
  TIDEOVER_EXPECT(count_ > 0, "the lowest of no numbers");
  return lowest_;
}

double Buckets::highest() const {
  TIDEOVER_EXPECT(count_ > 0, "the highest of no numbers");
  return highest_;
}

double Buckets::quantile(double p) const {
  TIDEOVER_EXPECT(p >= 0.0 && p <= 1.0 && count_ > 0, "a quantile between 0 and 1 of some numbers");
  const double rank = std::ceil(p * static_cast<double>(count_));
  return at_rank(std::clamp(static_cast<std::uint64_t>(rank), std::uint64_t{1}, count_));
}

double Buckets::at_rank(std::uint64_t rank) const {
  TIDEOVER_EXPECT(rank >= 1 && rank <= count_, "a rank among the numbers");
  if (rank == 1) return lowest_;
  if (rank == count_) return highest_;
  std::uint64_t below = 0;
  auto bucket = buckets_.begin();
  while (below + bucket->count < rank) below += (bucket++)->count;
  const double share =
      (static_cast<double>(rank - below) - 0.5) / static_cast<double>(bucket->count);
  return std::clamp(inside(bucket->key, share), lowest_, highest_);
}

}  // namespace tideover::numeric
