#include "drawing/svg.hpp"

#include <limits>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "base/contract.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover::drawing;

namespace {

Figure one_of_each() {
  Figure figure{.width_mm = 60.0, .height_mm = 40.5, .title = "One of each", .description = "<&>"};
  std::vector<Shape>& shapes = figure.shapes;
  shapes.emplace_back(Line{{0.0, 0.0}, {1.0 / 3.0, 2.5}, {.width_mm = 0.2}});
  shapes.emplace_back(Polyline{{{0.0, 0.0}, {1.0, 1.0}, {2.0, 0.0}}, {.dash = Dash::LongShort}});
  shapes.emplace_back(Polygon{.points = {{0.0, 0.0}, {1.0, 1.0}, {2.0, 0.0}}, .fill = Hatch{}});
  shapes.emplace_back(Rectangle{.box = {1.0, 2.0, 4.0, 8.0}, .fill = SolidFill{Ink::Tint}});
  shapes.emplace_back(Circle{.centre = {5.0, 5.0}, .radius_mm = 2.0, .fill = Hatch{}});
  shapes.emplace_back(Arc{.centre = {10.0, 10.0}, .radius_mm = 5.0, .sweep_deg = 270.0});
  shapes.emplace_back(Text{.at = {3.0, 4.0},
                           .words = "5 V < U & \"ok\"",
                           .anchor = Anchor::End,
                           .rotation_deg = -90.0,
                           .bold = true});
  Group group{.title = "A group", .description = "with words"};
  group.shapes.emplace_back(Line{});
  shapes.emplace_back(group);
  return figure;
}

}  // namespace

TEST_CASE("given one of each shape, the SVG holds one element of each and reads as XML") {
  const std::string text = svg(one_of_each());
  const XmlReading reading = read_xml(text);
  REQUIRE_MESSAGE(reading.fault.empty(), reading.fault);
  CHECK(reading.count("line") == 3);  // two lines and that of the hatch
  CHECK(reading.count("polyline") == 1);
  CHECK(reading.count("polygon") == 1);
  CHECK(reading.count("rect") == 1);
  CHECK(reading.count("circle") == 1);
  CHECK(reading.count("path") == 1);
  CHECK(reading.count("text") == 1);
  CHECK(reading.count("g") == 1);
  CHECK(reading.count("pattern") == 1);  // two equal hatches share one
  CHECK(reading.count("title") == 2);
  CHECK(reading.count("desc") == 2);
}

TEST_CASE("the SVG measures in millimetres and introduces itself to a screen reader") {
  const std::string text = svg(one_of_each());
  CHECK(text.find("width=\"60mm\" height=\"40.5mm\" viewBox=\"0 0 60 40.5\"") != std::string::npos);
  CHECK(text.find("role=\"img\"") != std::string::npos);
  const XmlReading reading = read_xml(text);
  const auto value_of = [&reading](std::string_view name) {
    const auto values = reading.values(name);
    REQUIRE(values.size() == 1);
    return values[0];
  };
  const auto ids = reading.values("id");
  const std::set<std::string> known(ids.begin(), ids.end());
  CHECK(known.size() == ids.size());
  CHECK(known.count(value_of("aria-labelledby")) == 1);
  CHECK(known.count(value_of("aria-describedby")) == 1);
}

TEST_CASE("the SVG runs nothing and fetches nothing") {
  const XmlReading reading = read_xml(svg(one_of_each()));
  for (const std::string_view element : {"script", "style", "image", "use", "foreignObject", "a"}) {
    CHECK(reading.count(element) == 0);
  }
  for (const auto& attribute : reading.attributes) {
    const std::string& name = attribute.first;
    CAPTURE(name);
    CHECK(name.substr(0, 2) != "on");
    CHECK(name.find("href") == std::string::npos);
    if (name != "xmlns") CHECK(attribute.second.find("//") == std::string::npos);
  }
}

TEST_CASE("equal figures give equal bytes, and different ones different ids") {
  Figure other = one_of_each();
  other.title = "Another";
  CHECK(svg(one_of_each()) == svg(one_of_each()));
  CHECK(read_xml(svg(one_of_each())).values("id") != read_xml(svg(other)).values("id"));
}

TEST_CASE("printed in grey, no ink has a hue") {
  const XmlReading reading = read_xml(svg(one_of_each(), Printing::Grey));
  for (const auto& attribute : reading.attributes) {
    const std::string& value = attribute.second;
    if (value.size() != 7 || value[0] != '#') continue;
    CAPTURE(value);
    CHECK(value.substr(1, 2) == value.substr(3, 2));
    CHECK(value.substr(3, 2) == value.substr(5, 2));
  }
}

TEST_CASE("words are escaped, and what XML does not allow is replaced") {
  CHECK(xml_escaped("a<b> & \"c\" 'd'") == "a&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39;");
  CHECK(xml_escaped("20 °C ± 2") == "20 °C ± 2");
  CHECK(xml_escaped(std::string_view("\0\x01", 2)) == "\uFFFD\uFFFD");
  CHECK(xml_escaped("\xFFok") == "\uFFFDok");
  CHECK(xml_escaped("]]>") == "]]&gt;");
}

TEST_CASE("whatever the words, the SVG stays well-formed") {
  CHECK(rc::check([](const std::string& words) {
    Figure figure{.width_mm = 10.0, .height_mm = 10.0, .title = words, .description = words};
    figure.shapes.emplace_back(Text{.at = {1.0, 1.0}, .words = words});
    const XmlReading reading = read_xml(svg(figure));
    RC_ASSERT(reading.fault == "");
    RC_ASSERT(reading.count("text") == 1U);
  }));
}

TEST_CASE("numbers are short and plain") {
  CHECK(compact_number(0.0) == "0");
  CHECK(compact_number(-0.0001) == "0");
  CHECK(compact_number(12.0) == "12");
  CHECK(compact_number(100.0) == "100");
  CHECK(compact_number(0.1 + 0.2) == "0.3");
  CHECK(compact_number(-3.14159) == "-3.142");
  CHECK(compact_number(1e15) == "1000000000000000");
}

TEST_CASE("a coordinate that is not finite is an inside error, not a broken picture") {
  Figure figure;
  figure.shapes.emplace_back(Line{{0.0, std::numeric_limits<double>::quiet_NaN()}, {1.0, 1.0}, {}});
  CHECK_THROWS_AS((void)svg(figure), tideover::base::ContractFault);
}

TEST_CASE("an arc ends where its sweep leads") {
  Figure figure;
  // A quarter turn clockwise on the page from the x axis ends straight below the centre.
  figure.shapes.emplace_back(Arc{.centre = {10.0, 10.0}, .radius_mm = 5.0, .sweep_deg = 90.0});
  figure.shapes.emplace_back(Arc{.centre = {10.0, 10.0}, .radius_mm = 5.0, .sweep_deg = -270.0});
  const std::string text = svg(figure);
  CHECK(text.find("M15 10A5 5 0 0 1 10 15\"") != std::string::npos);
  CHECK(text.find("M15 10A5 5 0 1 0 10 15\"") != std::string::npos);
}
