// No public function above the laws of parts takes or returns a number whose unit one has to guess.
#include "layout/bare_doubles.hpp"

#include <string>

#include <doctest/doctest.h>

#include "support/places.hpp"

using tideover::test::bare_doubles_in;
using tideover::test::Breach;

namespace {

std::string found_in(std::string_view text) {
  std::string all;
  for (const Breach& breach : bare_doubles_in(text, "run/run.hpp")) {
    all += std::to_string(breach.line) + " " + breach.rule.substr(0, breach.rule.find(':')) + "\n";
  }
  return all;
}

}  // namespace

TEST_CASE("above the laws of parts, every plain double says its unit") {
  const auto source = tideover::test::source_dir() / "src";
  for (const Breach& breach : tideover::test::find_bare_doubles(source)) {
    FAIL_CHECK("src/" << to_string(breach));
  }
}

TEST_CASE("a voltage that is a plain double is found, as argument, result and member") {
  CHECK(found_in("void charge(double voltage);\n") == "1 double `voltage`\n");
  CHECK(found_in("\n[[nodiscard]] double drop(Ohm r) const;\n") == "2 double `drop`\n");
  CHECK(found_in("struct Rail {\n  double volts = 24.0;\n};\n") == "2 double `volts`\n");
  CHECK(found_in("float lamp;\nconst double& heat();\n") == "1 double `lamp`\n2 double `heat`\n");
  CHECK(found_in("std::vector<std::vector<double>> samples;\n") == "1 double `samples`\n");
  CHECK(found_in("std::vector<double> of_all(std::vector<double>);\n") ==
        "1 double `of_all`\n1 a double without a name\n");
  CHECK(found_in("double rise(double);\n") == "1 double `rise`\n1 a double without a name\n");
}

TEST_CASE("a name that ends in its unit is passed, and so is what is private or no code") {
  CHECK(found_in("double lasts_s(double rail_v, double r_ohm);\n").empty());
  CHECK(found_in("double began_s_ = 0.0;\nstd::span<const double> margins_si;\n").empty());
  CHECK(found_in("// a double rail\n/* double\n   fuse */ int x;\nauto t = \"double lamp\";\n")
            .empty());
  CHECK(found_in("std::variant<bool, double, std::string> what;\n").empty());
  CHECK(found_in("class A {\n private:\n  double lamp_;\n};\ndouble rise();\n") ==
        "5 double `rise`\n");
  CHECK(found_in("double share = 1'000.0;\ndouble apples = 0.0;\n") == "2 double `apples`\n");
}
