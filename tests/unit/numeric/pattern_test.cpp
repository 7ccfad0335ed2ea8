#include "numeric/pattern.hpp"

#include <set>
#include <utility>

#include <doctest/doctest.h>
#include <rapidcheck.h>

using tideover::numeric::Pattern;
using tideover::numeric::PatternMaker;

TEST_CASE("pattern: an empty one has no size, one without entries its diagonal") {
  CHECK(Pattern{}.size() == 0);
  const Pattern pattern = PatternMaker(3).make();
  CHECK(pattern.size() == 3);
  CHECK(pattern.entry_count() == 3);
  CHECK(pattern.find(1, 1) == 1);
  CHECK(pattern.find(1, 0) == 3);
}

TEST_CASE("pattern: keeps what was added, once, row-wise with rising columns, and the diagonal") {
  const bool holds = rc::check([] {
    const int size = *rc::gen::inRange(1, 12);
    const auto places = *rc::gen::container<std::vector<std::pair<int, int>>>(
        rc::gen::pair(rc::gen::inRange(0, size + 2), rc::gen::inRange(0, size + 2)));
    PatternMaker maker(size);
    std::set<std::pair<int, int>> expected;
    for (const auto& [row, column] : places) {
      maker.add(row, column);
      if (row < size && column < size) expected.emplace(row, column);
    }
    for (int k = 0; k < size; ++k) expected.emplace(k, k);
    const Pattern pattern = std::move(maker).make();
    RC_ASSERT(pattern.entry_count() == static_cast<int>(expected.size()));
    int entry = 0;
    for (const auto& [row, column] : expected) {
      RC_ASSERT(pattern.find(row, column) == entry);
      RC_ASSERT(pattern.column()[static_cast<std::size_t>(entry)] == column);
      ++entry;
    }
    for (int row = 0; row < size + 2; ++row) {
      for (int column = 0; column < size + 2; ++column) {
        const bool is_in = expected.count({row, column}) > 0;
        RC_ASSERT((pattern.find(row, column) < pattern.entry_count()) == is_in);
      }
    }
  });
  CHECK(holds);
}
