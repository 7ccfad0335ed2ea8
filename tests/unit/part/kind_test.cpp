// What every kind of part owes its reader.
#include "part/kind.hpp"

#include <algorithm>
#include <set>
#include <string>

#include <doctest/doctest.h>

namespace {

using namespace tideover;
using part::Field;
using part::Part;

std::set<std::string> terminal_names(const Part& part) {
  std::set<std::string> names;
  for (const part::Terminal& terminal : part.terminals()) names.insert(terminal.name);
  return names;
}

/// A number in a field with a default: `given` values come from a sheet, all others need a reason.
bool holds_a_default(const Field& field, part::Described& owner) {
  const auto* amount = std::get_if<part::AmountField>(&field.what);
  if (amount == nullptr) return std::holds_alternative<part::CountField>(field.what);
  const quantity::Amount& held = amount->amount(owner);
  return held.low_si != 0.0 || held.high_si != 0.0;
}

}  // namespace

TEST_CASE("every kind is found by its name and by no other") {
  std::set<std::string> names;
  for (const part::Kind& kind : part::kinds()) {
    CHECK(names.insert(kind.description->name).second);
    CHECK(part::find_kind(kind.description->name)->description == kind.description);
  }
  CHECK(part::find_kind("perpetuum-mobile") == nullptr);
}

TEST_CASE("every kind says what it is, how it fails, and where the meter goes") {
  for (const part::Kind& kind : part::kinds()) {
    CAPTURE(kind.description->name);
    const auto made = kind.make();
    made->name = "it";
    CHECK(!kind.description->means.empty());
    CHECK(&made->description() == kind.description);
    CHECK(&made->clone()->description() == kind.description);
    CHECK(!made->failure_modes().empty());
    for (const part::FailureMode& mode : made->failure_modes()) {
      CHECK(!mode.name.empty());
      CHECK(!mode.means.empty());
    }
    const auto names = terminal_names(*made);
    CHECK(names.size() == made->terminals().size());
    CHECK(made->test_points().empty() == made->terminals().empty());
    for (const part::TestPoint& point : made->test_points()) {
      CHECK_MESSAGE(names.contains(point.plus), point.plus);
      CHECK_MESSAGE(names.contains(point.minus), point.minus);
      CHECK(!point.reads.empty());
    }
  }
}

TEST_CASE("every value of every kind has a meaning, a range that holds its default, and a source") {
  for (const part::Kind& kind : part::kinds()) {
    const auto made = kind.make();
    for (const Field& field : kind.description->fields) {
      CAPTURE(kind.description->name);
      CAPTURE(field.key);
      CHECK(!field.means.empty());
      if (field.is_required || !holds_a_default(field, *made)) continue;
      CHECK(!field.default_source.empty());
      if (const auto* amount = std::get_if<part::AmountField>(&field.what)) {
        const quantity::Amount& held = amount->amount(*made);
        CHECK(held.low_si >= amount->lowest_si);
        CHECK(held.high_si <= amount->highest_si);
      }
    }
  }
}

TEST_CASE("no kind uses a key twice") {
  for (const part::Kind& kind : part::kinds()) {
    CAPTURE(kind.description->name);
    std::set<std::string> keys;
    for (const Field& field : kind.description->fields) {
      CHECK_MESSAGE(keys.insert(field.key).second, field.key);
    }
  }
}
