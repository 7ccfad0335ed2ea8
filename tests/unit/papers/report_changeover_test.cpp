// The section of the report that shows every change of source.
#include <string>

#include <doctest/doctest.h>

#include "papers/report.hpp"
#include "support/two_sources.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover;

namespace {

struct Told {
  question::Changeovers changes;
  std::string html;
};

// The prediction stays empty: only the section counts here.
const Told& told() {
  static const Told made = [] {
    base::NoProgress nobody;
    const build::Build build = test::coil_on_the_rail().build();
    Told one{question::changeover(build, {}, nobody), {}};
    one.html = papers::report_html(build, {}, "9.9.9", one.changes);
    return one;
  }();
  return made;
}

std::size_t count(const std::string& text, const std::string& words) {
  std::size_t found = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++found;
  return found;
}

std::string section() {
  const std::size_t from = told().html.find("<section id=\"changeover\"");
  REQUIRE(from != std::string::npos);
  return told().html.substr(from, told().html.find("</section>", from) - from);
}

}  // namespace

TEST_CASE("the section on changeover says what does not ride through, with a figure a change") {
  const std::string html = section();
  CHECK(count(html, "buoy does not ride through: lost after") >= 1);
  CHECK(count(html, "<svg") == told().changes.changes.size());
  CHECK(count(html, "<table") == 1);
  CHECK(count(html, "k1 lets go") >= 1);
  CHECK(count(html, "accepted") >= 1);
  CHECK(read_xml(told().html.substr(told().html.find('\n') + 1)).fault == "");
}

TEST_CASE("its figures say in words what they show, for those who cannot see them") {
  const std::string html = section();
  CHECK(count(html, "main is unplugged: the voltages at the devices") == 1);
  CHECK(count(html, "Time counts from the change.") >= 1);
}

TEST_CASE("beside the capacitance stand the closed formula, why they differ, and the cautions") {
  const std::string html = section();
  CHECK(count(html, "would do: fit") == 1);
  CHECK(count(html, "The closed formula") == 1);
  CHECK(count(html, "Mind its polarity") == 1);
}

TEST_CASE("where changes were not asked for, the report has no such section") {
  const build::Build build = test::coil_on_the_rail().build();
  const std::string html = papers::report_html(build, {}, "9.9.9");
  CHECK(html.find("id=\"changeover\"") == std::string::npos);
}
