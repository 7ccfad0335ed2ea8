#include "drawing/log_chart.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "drawing/lettering.hpp"
#include "drawing/svg.hpp"
#include "unit/drawing/figure_reading.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover::drawing;

namespace {

// Two bands of I2t lines, a line and a mark.
LogChart chart() {
  const auto falls = [](double integral) {
    std::vector<LogPoint> points;
    for (const double x : {1.0, 3.0, 10.0, 100.0, 400.0}) points.push_back({x, integral / x / x});
    return points;
  };
  return {.title = "Two fuses",
          .description = "One falls below the other.",
          .x_title = "Current, A",
          .y_title = "Opens after, s",
          .x = {1.0, 400.0},
          .y = {1e-3, 1e4},
          .bands = {{"small", falls(10.0), falls(40.0), SolidFill{Ink::Ground}, {}},
                    {"large", falls(400.0), falls(4000.0), Hatch{}, {.dash = Dash::Long}}},
          .lines = {{"wire", falls(7439.0), {.width_mm = 0.5, .dash = Dash::LongShort}}},
          .marks = {{200.0, "200 A at most"}}};
}

const Text* text_of(const std::vector<Text>& texts, const std::string& words) {
  const auto found = std::ranges::find(texts, words, &Text::words);
  return found == texts.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a decade is as long as any other along either axis") {
  const auto texts = all<Text>(draw(chart()));
  const auto x_mm = [&](const char* words) {
    const Text* const tick = text_of(texts, words);
    REQUIRE_MESSAGE(tick != nullptr, words);
    return tick->at;
  };
  // 1 s and 1 A, 10 s and 10 A have the same label: those of time come second.
  CHECK(x_mm("100").x_mm > 0.0);
  std::vector<double> times_mm;
  for (const char* words : {"0.01", "0.1"}) times_mm.push_back(x_mm(words).y_mm);
  const double decade_mm = times_mm[0] - times_mm[1];
  CHECK(decade_mm > 5.0);
  CHECK(x_mm("1000").y_mm == doctest::Approx(times_mm[1] - 4.0 * decade_mm));
}

TEST_CASE("bands, line and mark are named in words and differ without colour") {
  const Figure figure = draw(chart());
  const auto texts = all<Text>(figure);
  for (const char* words :
       {"small", "large", "wire", "200 A at most", "Current, A", "Opens after, s"}) {
    CHECK_MESSAGE(text_of(texts, words) != nullptr, words);
  }
  // One ground is solid, the other hatched; each again in its sample at the right.
  const auto areas = all<Polygon>(figure);
  REQUIRE(areas.size() == 2);
  CHECK(std::holds_alternative<SolidFill>(areas[0].fill));
  CHECK(std::holds_alternative<Hatch>(areas[1].fill));
  const auto samples = all<Rectangle>(figure);
  REQUIRE(samples.size() == 2);
  CHECK(std::holds_alternative<SolidFill>(samples[0].fill));
  CHECK(std::holds_alternative<Hatch>(samples[1].fill));
}

TEST_CASE("nothing is drawn outside the page, and no two words lie on each other") {
  const Figure figure = draw(chart());
  const auto is_on_page = [&](const Point& at) {
    return at.x_mm >= 0.0 && at.x_mm <= figure.width_mm && at.y_mm >= 0.0 &&
           at.y_mm <= figure.height_mm;
  };
  for (const Polygon& area : all<Polygon>(figure)) {
    CHECK(std::ranges::all_of(area.points, is_on_page));
  }
  for (const Polyline& line : all<Polyline>(figure)) {
    CHECK(std::ranges::all_of(line.points, is_on_page));
  }
  std::vector<Box> boxes;
  for (const Text& text : all<Text>(figure)) {
    const double width_mm = text_width_mm(text.words, text.size_mm);
    const double left_mm = text.anchor == Anchor::Start    ? text.at.x_mm
                           : text.anchor == Anchor::Middle ? text.at.x_mm - width_mm / 2.0
                                                           : text.at.x_mm - width_mm;
    const Box box{left_mm, text.at.y_mm - cap_height * text.size_mm, left_mm + width_mm,
                  text.at.y_mm};
    CHECK(is_on_page({box.left_mm, box.top_mm}));
    CHECK(is_on_page({box.right_mm, box.bottom_mm}));
    for (const Box& other : boxes) CHECK_FALSE(box.overlaps(other));
    boxes.push_back(box);
  }
}

TEST_CASE("a mark at the edge keeps its words on the page") {
  LogChart edge = chart();
  edge.marks = {{400.0, "400 A at most, from a pack with a long name indeed"}};
  const Figure figure = draw(edge);
  const auto texts = all<Text>(figure);
  const Text* const words = text_of(texts, edge.marks.front().words);
  REQUIRE(words != nullptr);
  CHECK(words->at.x_mm + text_width_mm(words->words, words->size_mm) / 2.0 <= figure.width_mm);
}

TEST_CASE("a chart is well-formed and says what it shows") {
  const std::string text = svg(draw(chart()), Printing::Grey);
  CHECK(read_xml(text).fault == "");
  CHECK(text.find("One falls below the other.") != std::string::npos);
}
