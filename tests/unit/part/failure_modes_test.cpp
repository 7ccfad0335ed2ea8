// Every kind of part says how it fails, and each way of failing does something.
#include <algorithm>
#include <filesystem>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "build/read_sheet.hpp"
#include "part/kind.hpp"
#include "part/read_fields.hpp"
#include "shelf/shelf.hpp"
#include "support/failing_parts.hpp"
#include "support/places.hpp"

namespace {

using namespace tideover;
using part::Damage;
using part::FailureMode;
using part::Part;
using tests::AllParts;

AllParts parts_of_the_examples() {
  AllParts all;
  for (const auto& entry : std::filesystem::directory_iterator(test::examples_dir())) {
    auto read = build::read_sheet_file(entry.path(), shelf::built_in_shelf());
    REQUIRE(read.has_value());
    for (const auto& one : read.value().parts) all.push_back(one->clone());
  }
  return all;
}

AllParts every_part() {
  AllParts all = parts_of_the_examples();
  for (auto& one : tests::parts_of_every_make()) all.push_back(std::move(one));
  return all;
}

std::set<std::string> terminal_names(const Part& one) {
  std::set<std::string> names;
  for (const part::Terminal& terminal : one.terminals()) names.insert(terminal.name);
  return names;
}

bool joins_or_swaps(const Damage& damage) {
  return damage.what == Damage::What::Bridged || damage.what == Damage::What::Exchanged;
}

std::unique_ptr<Part> altered(const Part& one, const FailureMode& mode) {
  auto failed = one.clone();
  mode.alters(*failed);
  return failed;
}

/// Calls `judge(part, mode)` with every mode of every part, named in what a failed check prints.
template <class Judge>
void for_every_mode(const Judge& judge) {
  for (const auto& one : every_part()) {
    CAPTURE(one->description().name);
    CAPTURE(one->name);
    for (const FailureMode& mode : one->failure_modes()) {
      CAPTURE(mode.name);
      judge(*one, mode);
    }
  }
}

}  // namespace

TEST_CASE("the parts that are failed here are of every kind and sound as they are") {
  std::set<std::string> met;
  for (const auto& one : every_part()) {
    CAPTURE(one->name);
    met.insert(one->description().name);
    CHECK(one->contradictions().empty());
    CHECK(!one->failure_modes().empty());
  }
  for (const part::Kind& kind : part::kinds()) {
    CHECK_MESSAGE(met.contains(kind.description->name), kind.description->name);
  }
}

TEST_CASE("no part fails twice by the same name") {
  for (const auto& one : every_part()) {
    CAPTURE(one->description().name);
    std::set<std::string> names;
    for (const FailureMode& mode : one->failure_modes()) {
      CHECK_MESSAGE(names.insert(mode.name).second, mode.name);
      CHECK_MESSAGE(mode.name.size() <= 40, mode.name);
      CHECK(!mode.means.empty());
    }
  }
}

TEST_CASE("every failure breaks something at the part's own terminals or alters its values") {
  for_every_mode([](const Part& one, const FailureMode& mode) {
    CHECK((!mode.damages.empty() || mode.alters));
    const std::set<std::string> names = terminal_names(one);
    for (const Damage& damage : mode.damages) {
      CHECK_MESSAGE(names.contains(damage.terminal), damage.terminal);
      CHECK(names.contains(damage.other) == joins_or_swaps(damage));
      CHECK(damage.other != damage.terminal);
      const bool resists =
          damage.what == Damage::What::Resistive || damage.what == Damage::What::Bridged;
      CHECK((damage.resistance.si() > 0.0) == resists);
    }
  });
}

TEST_CASE("what a failure alters is altered, and the part still makes sense") {
  for_every_mode([](const Part& one, const FailureMode& mode) {
    if (!mode.alters) return;
    const auto failed = altered(one, mode);
    CHECK(tests::state_of(*failed) != tests::state_of(one));
    for (const std::string& sentence : failed->contradictions()) FAIL_CHECK(sentence);
  });
}

TEST_CASE("a failure leaves the part's name and terminals as they were") {
  for_every_mode([](const Part& one, const FailureMode& mode) {
    if (!mode.alters) return;
    const auto failed = altered(one, mode);
    CHECK(failed->name == one.name);
    CHECK(terminal_names(*failed) == terminal_names(one));
    CHECK(failed->joined_inside() == one.joined_inside());
  });
}

TEST_CASE("asking how a part fails, and failing a copy of it, leaves the part sound") {
  for (const auto& one : every_part()) {
    CAPTURE(one->name);
    const std::string before = tests::state_of(*one);
    for (const FailureMode& mode : one->failure_modes()) {
      if (mode.alters) CHECK(tests::state_of(*altered(*one, mode)) != before);
    }
    CHECK(tests::state_of(*one) == before);
  }
}
