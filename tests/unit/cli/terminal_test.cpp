#include "cli/terminal.hpp"

#include <doctest/doctest.h>

using namespace tideover;
using cli::bar_text;
using cli::printed;
using cli::Stream;
using cli::wrapped;

TEST_CASE("lines are broken at blanks and keep their indent") {
  CHECK(wrapped("  one two three", 9) == "  one two\n  three");
  CHECK(wrapped("one", 3) == "one");
  CHECK(wrapped("averylongword fits", 5) == "averylongword\nfits");
  CHECK(wrapped("", 10).empty());
  CHECK(wrapped("35 \u00b5s of it", 5) == "35 \u00b5s\nof it");
}

TEST_CASE("colour is for terminals that want it") {
  const service::Line bad{service::Tone::Bad, "fails"};
  CHECK(printed(bad, {}) == "fails\n");
  CHECK(printed(bad, {.is_terminal = true}) == "fails\n");
  CHECK(printed(bad, {.is_terminal = true, .is_coloured = true}) == "\x1b[31;1mfails\x1b[0m\n");
  CHECK(printed({service::Tone::Plain, "so"}, {.is_terminal = true, .is_coloured = true}) ==
        "so\n");
}

TEST_CASE("a pipe gets whole lines") {
  const std::string words(300, 'a');
  CHECK(printed({service::Tone::Plain, words + " b"}, {}) == words + " b\n");
}

TEST_CASE("the bar shows its share and fits its width") {
  CHECK(bar_text(0.5, "in store", 60) == "[############............]  50 %  in store");
  CHECK(bar_text(2.0, "", 60).find("100 %") != std::string::npos);
  CHECK(bar_text(0.5, "in store", 10) == "[#########");
}

TEST_CASE("progress for a file is plain lines") {
  CHECK(cli::line_text(0.4, "storm, 18 degC") == "tideover: 40 % done, at storm, 18 degC");
  CHECK(cli::line_text(2.0, "") == "tideover: 100 % done");
}
