#include "drawing/plot.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "drawing/lettering.hpp"
#include "drawing/svg.hpp"
#include "unit/drawing/figure_reading.hpp"
#include "unit/drawing/xml_reading.hpp"

using namespace tideover::drawing;

namespace {

std::vector<std::string> words_of(const Figure& figure) {
  std::vector<std::string> words;
  for (const Text& text : all<Text>(figure)) words.push_back(text.words);
  return words;
}

bool says(const Figure& figure, const std::string& words) {
  const auto all_words = words_of(figure);
  return std::count(all_words.begin(), all_words.end(), words) > 0;
}

Box box_of(const Text& text) {
  const double width_mm = text_width_mm(text.words, text.size_mm, text.bold);
  double left_mm = text.at.x_mm;
  if (text.anchor == Anchor::Middle) left_mm -= width_mm / 2.0;
  if (text.anchor == Anchor::End) left_mm -= width_mm;
  return {left_mm, text.at.y_mm - cap_height * text.size_mm, left_mm + width_mm, text.at.y_mm};
}

/// An outage at 1800 s, given to a plot that outlives it.
struct Story {
  std::vector<double> t_s{0.0, 1800.0, 1800.0, 9000.0, 9000.0, 12000.0};
  std::vector<double> rail_v{24.0, 24.0, 20.5, 18.0, 24.0, 24.0};
  std::vector<double> energy_wh{140.0, 140.0, 140.0, 60.0, 60.0, 90.0};

  [[nodiscard]] Plot plot() const {
    Plot plot{.title = "An outage", .description = "The mains goes for two hours."};
    plot.time = {{.from_s = 0.0, .to_s = 12000.0}};
    plot.panels = {
        {.quantity = "Energy left", .unit = "W h", .series = {{"pack", t_s, energy_wh, {}}}},
        {.quantity = "Voltage",
         .unit = "V",
         .series = {{"sea gauge", t_s, rail_v, {}}},
         .bands = {{20.0, 28.0, "accepted"}}},
    };
    plot.shades = {{1800.0, 9000.0, "mains absent"}};
    plot.events = {{1800.0, "mains goes"}, {9000.0, "mains returns"}};
    plot.caption = "The mains goes after half an hour.";
    return plot;
  }
};

/// A plot of anything, with the samples it looks at.
struct AnyStory {
  std::vector<double> t_s;
  std::vector<std::vector<double>> values;
  Plot plot;

  Panel any_panel(int number) {
    Panel panel{.quantity = "Quantity " + std::to_string(number), .unit = "V"};
    const double size = std::pow(10.0, *rc::gen::inRange(-4, 5));
    const int series = *rc::gen::inRange(1, 7);
    for (int s = 0; s < series; ++s) {
      values.emplace_back();
      double at = 0.0;
      for (std::size_t i = 0; i < t_s.size(); ++i) {
        at += size * *rc::gen::inRange(-10, 11) / 10.0;
        values.back().push_back(at);
      }
      panel.series.push_back({"series number " + std::to_string(s), t_s, values.back(), {}});
    }
    if (*rc::gen::arbitrary<bool>()) {
      const double low = size * *rc::gen::inRange(-20, 20);
      panel.bands = {{low, low + size * *rc::gen::inRange(1, 10), "the range it accepts"}};
    }
    return panel;
  }

  void invent() {
    const int samples = *rc::gen::inRange(2, 400);
    const double length_s = std::pow(10.0, *rc::gen::inRange(-10, 60) / 10.0);
    for (int i = 0; i < samples; ++i) t_s.push_back(length_s * i / (samples - 1));
    plot.caption = "A caption of some length that may have to break.";
    plot.width_mm = *rc::gen::inRange(120, 200);
    plot.time = {{.from_s = 0.0, .to_s = length_s}};
    if (*rc::gen::arbitrary<bool>()) {
      const double fold_s = length_s * *rc::gen::inRange(1, 99) / 100.0;
      plot.time = {{.from_s = 0.0, .to_s = fold_s, .words = "first"},
                   {.from_s = fold_s, .to_s = length_s, .share = 2.0, .words = "then"}};
    }
    const int panels = *rc::gen::inRange(1, 4);
    for (int i = 0; i < panels; ++i) plot.panels.push_back(any_panel(i));
    const int events = *rc::gen::inRange(0, 30);
    for (int i = 0; i < events; ++i) {
      plot.events.push_back(
          {length_s * *rc::gen::inRange(0, 1000) / 1000.0, "event number " + std::to_string(i)});
    }
    plot.shades = {{length_s * 0.2, length_s * 0.6, "mains absent"}};
  }
};

}  // namespace

TEST_CASE("given an outage, the plot says in words what is drawn where") {
  const Story story;
  const Figure figure = draw(story.plot());
  CHECK(figure.width_mm == 180.0);
  for (const char* words : {"Energy left, W h", "Voltage, V", "pack", "sea gauge", "accepted",
                            "mains absent", "mains goes", "mains returns", "30 min", "3 h",
                            "Time from the start", "The mains goes after half an hour."}) {
    CAPTURE(words);
    CHECK(says(figure, words));
  }
  CHECK(figure.title == "An outage");
  CHECK(figure.description.find("sea gauge starts at 24.00 and ends at 24.00; lowest 18.00 at "
                                "2 h 30 min, highest 24.00 at 0.") != std::string::npos);
}

TEST_CASE("given an outage, its shapes stand as they should: the golden figure") {
  const Story story;
  const Figure figure = draw(story.plot());
  std::vector<std::pair<std::string, std::size_t>> groups;
  for (const Shape& shape : figure.shapes) {
    const auto* group = std::get_if<Group>(&shape.form);
    REQUIRE(group != nullptr);
    groups.emplace_back(group->title, group->shapes.size());
  }
  const std::vector<std::pair<std::string, std::size_t>> expected{
      {"", 2},                   // the bands of two panels
      {"", 2},                   // hatching of two fields
      {"Events", 6},             // two events: a pole in each field and a flag
      {"Hatched stretches", 2},  // bar and words
      {"Energy left, W h", 0},
      {"Voltage, V", 0},
      {"Time from the start", 0},
      {"", 1}};
  REQUIRE(groups.size() == expected.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    CHECK(groups[i].first == expected[i].first);
    if (expected[i].second > 0) CHECK(groups[i].second == expected[i].second);
  }
  // One line a series and one for the sample beside its name.
  CHECK(all<Polyline>(figure).size() == 4);
}

TEST_CASE("given an event near the start, its pole does not run through the panels' titles") {
  const Story story;
  Plot plot = story.plot();
  // At the margin the titles would stand astride a pole at the very start of the axis.
  plot.events = {{60.0, "mains goes"}};
  const Figure figure = draw(plot);
  double pole_mm = 0.0;
  for (const Text& text : all<Text>(figure)) {
    if (text.words == "mains goes") pole_mm = text.at.x_mm;
  }
  int titles = 0;
  for (const Text& text : all<Text>(figure)) {
    if (text.words != "Energy left, W h" && text.words != "Voltage, V") continue;
    ++titles;
    CHECK(text.at.x_mm > pole_mm);
  }
  CHECK(titles == 2);
}

TEST_CASE("given a step and a straight fall, the line drawn has just their corners") {
  const Story story;
  Plot plot = story.plot();
  plot.panels.erase(plot.panels.begin());
  const std::vector<Polyline> lines = all<Polyline>(draw(plot));
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].points.size() == story.t_s.size());
  CHECK(lines[0].points.front().y_mm == doctest::Approx(lines[0].points.back().y_mm));
  CHECK(lines[0].points[1].x_mm == lines[0].points[2].x_mm);
}

TEST_CASE("given a series with a gap, the line breaks there") {
  Story story;
  story.rail_v[3] = std::numeric_limits<double>::quiet_NaN();
  Plot plot = story.plot();
  plot.panels.erase(plot.panels.begin());
  CHECK(all<Polyline>(draw(plot)).size() == 3);
}

TEST_CASE("given 100 000 samples of noise, the picture stays small and keeps the spike") {
  std::vector<double> t_s;
  std::vector<double> y;
  for (int i = 0; i < 100000; ++i) {
    t_s.push_back(i);
    y.push_back(i == 43210 ? 100.0 : std::sin(i * 1.7) * (i % 13));
  }
  Plot plot{.title = "Noise", .time = {{.from_s = 0.0, .to_s = 99999.0}}};
  plot.panels = {{.quantity = "Noise", .series = {{"noise", t_s, y, {}}}}};
  const Figure figure = draw(plot);
  CHECK(svg(figure).size() < 60000);
  std::size_t points = 0;
  double highest_mm = 1e9;
  for (const Polyline& line : all<Polyline>(figure)) {
    points += line.points.size();
    for (const Point point : line.points) highest_mm = std::min(highest_mm, point.y_mm);
  }
  CHECK(points < 2 * 1800);
  // 100 is the top of the axis, which starts below the title's row of 5 mm and 1 mm of margin.
  CHECK(highest_mm == doctest::Approx(6.0));
  CHECK(figure.description.find("highest 100.0 at 12 h") != std::string::npos);
}

TEST_CASE("given a burst every minute, the plot explains its grey ground and its short ticks") {
  std::vector<double> t_s;
  std::vector<double> y;
  Story story;
  Plot plot = story.plot();
  for (int minute = 0; minute < 1440; ++minute) {
    const double at_s = 60.0 * minute;
    t_s.insert(t_s.end(), {at_s, at_s, at_s + 5.0, at_s + 5.0});
    y.insert(y.end(), {1.0, 2.0, 2.0, 1.0});
    plot.events.push_back({at_s, "burst"});
  }
  plot.time = {{.from_s = 0.0, .to_s = 86400.0}};
  plot.panels = {{.quantity = "Current", .unit = "A", .series = {{"logger", t_s, y, {}}}}};
  const Figure figure = draw(plot);
  CHECK(says(figure, "Short ticks: burst, 1440 times, first at 0, last at 23 h 59 min."));
  CHECK(says(figure,
             "Grey behind a line: what it covers where it goes up and down too fast to "
             "draw; the line is then its mean."));
  CHECK(says(figure, "mains goes"));
  CHECK(all<Polygon>(figure).size() == 1);
}

TEST_CASE("given more events than words have room for, numbers fly and a list explains them") {
  const Story story;
  Plot plot = story.plot();
  for (int i = 0; i < 50; ++i) {
    plot.events.push_back({200.0 * i, "relay number " + std::to_string(i) + " lets go"});
  }
  const Figure figure = draw(plot);
  CHECK_FALSE(says(figure, "mains goes"));
  CHECK(says(figure, "30 min: mains goes"));
  CHECK(says(figure, "12 later events are numbered but not listed."));
}

TEST_CASE("given a folded axis, each stretch says what it is and how long it lasts") {
  const Story story;
  Plot plot = story.plot();
  plot.time = {
      {.from_s = 0.0, .to_s = 1799.99, .words = "before"},
      {.from_s = 1799.99, .to_s = 1800.09, .counted_from_s = 1800.0, .words = "changeover"},
      {.from_s = 1800.09, .to_s = 12000.0, .share = 2.0, .words = "outage"}};
  const Figure figure = draw(plot);
  CHECK(says(figure, "before, 30 min"));
  CHECK(says(figure, "changeover, 100 ms"));
  CHECK(says(figure, "outage, 2 h 50 min"));
  // Each series is three pieces of line and its sample.
  CHECK(all<Polyline>(figure).size() == 8);
}

TEST_CASE("given series with no values at all, the plot still stands and says so") {
  const std::vector<double> t_s{0.0, 1.0};
  const std::vector<double> y(2, std::numeric_limits<double>::quiet_NaN());
  Plot plot{.title = "Nothing", .time = {{.from_s = 0.0, .to_s = 1.0}}};
  for (const Scale scale : {Scale::Linear, Scale::Log}) {
    plot.panels = {{.quantity = "Nothing", .series = {{"none", t_s, y, {}}}, .scale = scale}};
    const Figure figure = draw(plot);
    CHECK(figure.description.find("none has no values.") != std::string::npos);
    CHECK(read_xml(svg(figure)).fault.empty());
  }
}

TEST_CASE("given any story, no words cover others and all stay on the page") {
  CHECK(rc::check([] {
    AnyStory story;
    story.values.reserve(24);  // the plot looks at them: they must not move
    story.invent();
    const Figure figure = draw(story.plot);
    const std::vector<Text> texts = all<Text>(figure);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const Box box = box_of(texts[i]);
      RC_ASSERT(box.left_mm >= 0.0);
      RC_ASSERT(box.right_mm <= figure.width_mm);
      RC_ASSERT(box.top_mm >= 0.0);
      RC_ASSERT(box.bottom_mm <= figure.height_mm);
      for (std::size_t k = 0; k < i; ++k) {
        if (box.overlaps(box_of(texts[k]))) {
          RC_FAIL("'" + texts[i].words + "' covers '" + texts[k].words + "'");
        }
      }
    }
  }));
}
