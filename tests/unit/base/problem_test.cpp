#include "base/problem.hpp"

#include <doctest/doctest.h>

using namespace tideover::base;

namespace {

Problem problem_at(int column, int length, std::string excerpt) {
  Problem problem{{}, "there is no unit `Vots`", "Did you mean `V`?"};
  problem.place.file = "sheet.toml";
  problem.place.line = 7;
  problem.place.column = column;
  problem.place.length = length;
  problem.place.excerpt = std::move(excerpt);
  return problem;
}

}  // namespace

TEST_CASE("given a problem with a place, then the line stands with a caret line below it") {
  CHECK(show(problem_at(14, 4, "output = \"24 Vots\"")) ==
        "sheet.toml:7:14: there is no unit `Vots`\n"
        "    output = \"24 Vots\"\n"
        "                 ^^^^\n"
        "  Did you mean `V`?\n");
}

TEST_CASE("given letters beyond ASCII before the place, then the caret stands under it") {
  CHECK(show(problem_at(6, 1, "µΩ°€ x")) ==
        "sheet.toml:7:6: there is no unit `Vots`\n"
        "    µΩ°€ x\n"
        "         ^\n"
        "  Did you mean `V`?\n");
}

TEST_CASE("given a problem of a whole file, then no line is quoted") {
  Problem problem{{}, "is larger than 4 MiB", ""};
  problem.place.file = "sheet.toml";
  CHECK(show(problem) == "sheet.toml: is larger than 4 MiB\n");
  CHECK(show(Problem{{}, "no file was named", ""}) == "no file was named\n");
}

TEST_CASE("given a line of ten thousand letters, then it is cut around the place") {
  const std::string text = show(problem_at(5000, 3, std::string(10000, 'x')));
  CHECK(text.size() < 400);
  CHECK(text.find("... xxx") != std::string::npos);
  CHECK(text.find("xxx ...\n") != std::string::npos);
  CHECK(text.find(" ^^^\n") != std::string::npos);
}

TEST_CASE("given a place behind the end of its line, then the caret stands at the end") {
  CHECK(show(problem_at(90, 40, "ab")).find("    ab\n      ^\n") != std::string::npos);
}

TEST_CASE("given bytes that steer a terminal, then they are not let through") {
  const std::string text = show(problem_at(2, 1, "a\x1B[2J\tb\xB5\x7F\u009Bm"));
  CHECK(text.find("    a?[2J b???m\n") != std::string::npos);
}
