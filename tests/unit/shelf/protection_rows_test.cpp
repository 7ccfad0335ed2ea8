// Rows that protect and switch must make a part that is whole: readable, and free of
// contradictions.
#include <doctest/doctest.h>

#include "part/kind.hpp"
#include "part/read_fields.hpp"
#include "shelf/shelf.hpp"

using namespace tideover;

TEST_CASE(
    "given any row of the shelf for relays, diodes, fuses, guards and boards, then it makes a "
    "part") {
  const shelf::Shelf& shelf = shelf::built_in_shelf();
  for (const char* list : {"relay", "diode", "ideal-diode", "fuse", "surge-clamp", "polarity-guard",
                           "thermal-cut-out", "protection-board"}) {
    const part::Kind* kind = part::find_kind(list);
    REQUIRE(kind != nullptr);
    REQUIRE_FALSE(shelf.names(list).empty());
    for (const std::string& name : shelf.names(list)) {
      CAPTURE(list);
      CAPTURE(name);
      const auto made = kind->make();
      part::Findings findings;
      part::FieldReader reader(shelf, findings, true);
      REQUIRE(reader.read_row(*shelf.find_row(list, name), *made));
      const auto wrong = made->contradictions();
      CHECK_MESSAGE(wrong.empty(), (wrong.empty() ? "" : wrong.front()));
    }
  }
}
