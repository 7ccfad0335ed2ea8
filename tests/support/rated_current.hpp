// What every rule on a rated current finds in a part whose runs are written by hand.
#pragma once

#include <string>

#include "finding/finding.hpp"
#include "support/sheet_text.hpp"

namespace tideover::test {

struct RatedCase {
  const finding::Rule& rule;
  std::string part;     // of the jetty
  std::string key;      // of its rated current
  std::string channel;  // of the runs
  std::string rating;   // by which the runs watch it
  double rated_a = 0.0;
  std::string advised;  // "6.9 A", where it carries 2 % too much
  Lines changes = {};   // to the jetty, so that it has such a part
};

// Half of its rating holds, 2 % less is tight and 2 % more fails with advice that mends it; without
// a rating it is unknown; what the runs saw exceeded fails, however short; without a run it is not
// judged at all.
void expect_rated(const RatedCase& given);

}  // namespace tideover::test
