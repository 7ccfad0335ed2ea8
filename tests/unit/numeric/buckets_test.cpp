#include "numeric/buckets.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"

namespace {

using tideover::numeric::Buckets;

constexpr double never = std::numeric_limits<double>::infinity();

Buckets counted(const std::vector<double>& numbers) {
  Buckets buckets;
  for (const double number : numbers) buckets.add(number);
  return buckets;
}

/// Of either sign, over twelve decades, now and then nought, now and then the same again.
std::vector<double> any_numbers() {
  const int count = *rc::gen::inRange(1, 300);
  std::vector<double> numbers;
  for (int k = 0; k < count; ++k) {
    const double size = std::pow(10.0, *rc::gen::inRange(-600, 600) * 0.01);
    numbers.push_back(*rc::gen::inRange(-9, 10) * size);
    if (*rc::gen::inRange(0, 4) == 0) numbers.push_back(numbers.front());
  }
  return numbers;
}

}  // namespace

TEST_CASE("buckets: a quantile is the sorted number of its rank to the width of a bucket") {
  CHECK(rc::check([] {
    std::vector<double> numbers = any_numbers();
    const Buckets buckets = counted(numbers);
    std::ranges::sort(numbers);
    for (std::size_t rank = 1; rank <= numbers.size(); ++rank) {
      const double exact = numbers[rank - 1];
      const double read = buckets.at_rank(rank);
      RC_ASSERT(std::abs(read - exact) <= Buckets::relative_width * std::abs(exact) * (1 + 1e-12));
    }
    RC_ASSERT(buckets.lowest() == numbers.front());
    RC_ASSERT(buckets.highest() == numbers.back());
    RC_ASSERT(buckets.count() == numbers.size());
  }));
}

TEST_CASE("buckets: partial counts in any order add up to what all at once gives, exactly") {
  CHECK(rc::check([] {
    const std::vector<double> numbers = any_numbers();
    std::vector<Buckets> parts(4);
    for (const double number : numbers) parts[*rc::gen::inRange<std::size_t>(0, 4)].add(number);
    Buckets forth;
    Buckets back;
    for (const Buckets& part : parts) forth.add(part);
    for (auto part = parts.rbegin(); part != parts.rend(); ++part) back.add(*part);
    RC_ASSERT(forth == counted(numbers));
    RC_ASSERT(back == forth);

    const std::vector<Buckets::Bucket> told(forth.buckets().begin(), forth.buckets().end());
    RC_ASSERT(Buckets(told, forth.lowest(), forth.highest()) == forth);
  }));
}

TEST_CASE("buckets: quantiles rise with their share and stay between the extremes") {
  CHECK(rc::check([] {
    const Buckets buckets = counted(any_numbers());
    double before = buckets.lowest();
    for (int k = 0; k <= 100; ++k) {
      const double value = buckets.quantile(k * 0.01);
      RC_ASSERT(value >= before);
      before = value;
    }
    RC_ASSERT(before == buckets.highest());
  }));
}

TEST_CASE("buckets: of a hundred hours evenly spread, the shares are the hours") {
  Buckets hours;
  for (int k = 1; k <= 100; ++k) hours.add(k * 3600.0);
  for (const double p : {0.05, 0.5, 0.95}) {
    CHECK(hours.quantile(p) == doctest::Approx(p * 100 * 3600.0).epsilon(Buckets::relative_width));
  }
}

TEST_CASE("buckets: memory follows the spread of the numbers, not how many there are") {
  Buckets buckets;
  for (int k = 0; k < 1'000'000; ++k) buckets.add(20.0 + 12.0 * (k % 9973) / 9973.0);
  CHECK(buckets.count() == 1'000'000);
  // From 20 to 32 V without a factor of two in between: a part of 4096 buckets.
  CHECK(buckets.buckets().size() <= 4096 * 12 / 16 + 1);
}

TEST_CASE("buckets: nought, never and the ends of the number range have their places") {
  const Buckets buckets = counted({never, -0.0, 1.0, -never, 0.0, 1e308, -1e-310});
  CHECK(buckets.lowest() == -never);
  CHECK(buckets.at_rank(2) == 0.0);
  CHECK(buckets.at_rank(4) == 0.0);
  CHECK(buckets.at_rank(5) == doctest::Approx(1.0).epsilon(Buckets::relative_width));
  CHECK(buckets.at_rank(6) == doctest::Approx(1e308).epsilon(Buckets::relative_width));
  CHECK(buckets.highest() == never);
  CHECK(counted({0.0, -0.0}) == counted({-0.0, 0.0}));
  const double last = std::numeric_limits<double>::max();
  CHECK(counted({last, last, last}).at_rank(2) == last);
}

TEST_CASE("buckets: what nothing can have filled is told, and a NaN is no number") {
  const Buckets buckets = counted({1.0, 2.0, 2.0});
  std::vector<Buckets::Bucket> told(buckets.buckets().begin(), buckets.buckets().end());
  CHECK(Buckets::is_sound(told, 1.0, 2.0));
  CHECK_FALSE(Buckets::is_sound(told, 0.5, 2.0));
  CHECK_FALSE(Buckets::is_sound(told, 1.0, 3.0));
  CHECK_FALSE(Buckets::is_sound({}, 1.0, 2.0));
  CHECK(Buckets::is_sound({}, 0.0, 0.0));
  std::ranges::reverse(told);
  CHECK_FALSE(Buckets::is_sound(told, 1.0, 2.0));
  told = {{told[0].key, 0}};
  CHECK_FALSE(Buckets::is_sound(told, 2.0, 2.0));

  using tideover::base::ContractFault;
  Buckets none;
  CHECK_THROWS_AS(none.add(std::numeric_limits<double>::quiet_NaN()), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(none.quantile(0.5)), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(none.lowest()), ContractFault);
  CHECK_THROWS_AS(static_cast<void>(buckets.at_rank(4)), ContractFault);
}
