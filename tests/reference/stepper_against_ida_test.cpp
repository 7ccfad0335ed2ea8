// The stepper and SUNDIALS IDA on the same networks: when what happens, and where all ends up.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <doctest/doctest.h>

#include "reference/hand_built.hpp"
#include "reference/side_by_side.hpp"

namespace {

using namespace tideover;
using reference::HandBuilt;
using reference::Ran;

constexpr double reference_tolerance = 1e-10;

/// The lower a method's order, the more its errors of a step add up over hundreds of cycles.
struct Method {
  const hybrid::Tableau* tableau;
  double tolerance;
};
const std::array<Method, 3> methods{
    {{&hybrid::esdirk_43(), 2e-8}, {&hybrid::esdirk_32(), 1e-8}, {&hybrid::tr_bdf2(), 1e-9}}};

/// Event times agree to 1e-5 of the time, or to a tenth of a millisecond (these networks have
/// events milliseconds apart).
void check_events(const Ran& ours, const Ran& theirs) {
  REQUIRE(ours.marks.size() == theirs.marks.size());
  for (std::size_t k = 0; k < ours.marks.size(); ++k) {
    CAPTURE(k);
    CHECK(ours.marks[k].who + " " + ours.marks[k].words ==
          theirs.marks[k].who + " " + theirs.marks[k].words);
    const double off_s = std::abs(ours.marks[k].time_s - theirs.marks[k].time_s);
    CAPTURE(theirs.marks[k].time_s);
    CAPTURE(off_s);
    CHECK(off_s <= std::max(1e-5 * theirs.marks[k].time_s, 1e-4));
  }
}

void check_end(const HandBuilt& built, const Ran& ours, const Ran& theirs) {
  const auto scale = built.net.scale();
  for (std::size_t k = 0; k < ours.y.size(); ++k) {
    CAPTURE(built.net.unknown_names()[k]);
    CHECK(std::abs(ours.y[k] - theirs.y[k]) <= 1e-5 * std::max(std::abs(theirs.y[k]), scale[k]));
  }
  const double joules = 1e-5 * theirs.turnover_j;
  CHECK(std::abs(ours.supplied_j - theirs.supplied_j) <= joules);
  CHECK(std::abs(ours.served_j - theirs.served_j) <= joules);
  CHECK(std::abs(ours.lost_j - theirs.lost_j) <= joules);
  CHECK(std::abs(ours.stored_change_j - theirs.stored_change_j) <= joules);
}

}  // namespace

TEST_CASE("hand-built networks: same events at the same instants, same end, same energies as IDA") {
  for (const HandBuilt& built : reference::all_hand_built()) {
    CAPTURE(built.name);
    const Ran theirs = reference::run_by_ida(built.net, built.until_s,
                                             {.relative_tolerance = reference_tolerance});
    REQUIRE(theirs.outcome.ended == hybrid::Ended::AtTime);
    for (const Method& method : methods) {
      CAPTURE(std::string(method.tableau->name));
      const Ran ours = reference::run_by_stepper(
          built.net, built.until_s,
          {.relative_tolerance = method.tolerance, .tableau = method.tableau});
      REQUIRE(ours.outcome.ended == hybrid::Ended::AtTime);
      check_events(ours, theirs);
      check_end(built, ours, theirs);
      CHECK(std::abs(ours.books_open()) < 1e-5);
    }
  }
}

TEST_CASE("hand-built networks: enough happens in each for the comparison to mean something") {
  for (const HandBuilt& built : reference::all_hand_built()) {
    CAPTURE(built.name);
    const Ran theirs = reference::run_by_ida(built.net, built.until_s, {});
    CHECK(theirs.marks.size() >= 2);
    CHECK(theirs.turnover_j > 0.0);
    // The reference closes the same books by its own interpolation.
    CHECK(std::abs(theirs.books_open()) < 1e-6);
  }
}

TEST_CASE("reference: another tolerance of IDA, same result: it is converged where it is used") {
  for (const HandBuilt& built : reference::all_hand_built()) {
    CAPTURE(built.name);
    const Ran fine = reference::run_by_ida(built.net, built.until_s,
                                           {.relative_tolerance = reference_tolerance});
    const Ran coarse = reference::run_by_ida(built.net, built.until_s,
                                             {.relative_tolerance = 30 * reference_tolerance});
    check_events(coarse, fine);
    check_end(built, coarse, fine);
  }
}
