// What a drawing of the wiring rests on: every terminal has a place on its kind's symbol, and no
// stroke leaves the frame that a drawing keeps free for it.
#include "part/symbol.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "drawing/lettering.hpp"
#include "part/kind.hpp"
#include "part/symbol_sheet.hpp"

namespace {

using namespace tideover;
using drawing::Point;
using part::Symbol;

/// The ends and corners of a stroke, and what lies around its circles and words.
struct Corners {
  std::vector<Point> operator()(const drawing::Line& line) const { return {line.from, line.to}; }
  std::vector<Point> operator()(const drawing::Polyline& line) const { return line.points; }
  std::vector<Point> operator()(const drawing::Polygon& polygon) const { return polygon.points; }
  std::vector<Point> operator()(const drawing::Rectangle& rectangle) const {
    return {{rectangle.box.left_mm, rectangle.box.top_mm},
            {rectangle.box.right_mm, rectangle.box.bottom_mm}};
  }
  std::vector<Point> operator()(const drawing::Circle& circle) const {
    return around(circle.centre, circle.radius_mm);
  }
  std::vector<Point> operator()(const drawing::Arc& arc) const {
    return around(arc.centre, arc.radius_mm);
  }
  std::vector<Point> operator()(const drawing::Text& text) const {
    const double half_mm = 0.5 * drawing::text_width_mm(text.words, text.size_mm);
    REQUIRE(text.anchor == drawing::Anchor::Middle);
    return {{text.at.x_mm - half_mm, text.at.y_mm - text.size_mm * drawing::cap_height},
            {text.at.x_mm + half_mm, text.at.y_mm + text.size_mm * drawing::descent}};
  }
  std::vector<Point> operator()(const drawing::Group& group) const {
    std::vector<Point> all;
    for (const drawing::Shape& shape : group.shapes) {
      for (const Point at : std::visit(*this, shape.form)) all.push_back(at);
    }
    return all;
  }
  static std::vector<Point> around(Point centre, double radius_mm) {
    return {{centre.x_mm - radius_mm, centre.y_mm - radius_mm},
            {centre.x_mm + radius_mm, centre.y_mm + radius_mm}};
  }
};

bool is_on_grid(double length_mm) {
  const double modules = length_mm / part::symbol_module_mm;
  return std::abs(modules - std::round(modules)) < 1e-9;
}

void check_symbol(const part::Part& one) {
  const Symbol symbol = one.symbol();
  std::multiset<std::string> drawn;
  for (const part::Pin& pin : symbol.pins) {
    CAPTURE(pin.terminal);
    drawn.insert(pin.terminal);
    CHECK((is_on_grid(pin.at.x_mm) && is_on_grid(pin.at.y_mm)));
    const bool is_at_side = pin.at.x_mm == 0.0 || pin.at.x_mm == symbol.width_mm;
    CHECK((is_at_side || pin.at.y_mm == 0.0 || pin.at.y_mm == symbol.height_mm));
    CHECK(std::ranges::count_if(symbol.pins,
                                [&](const part::Pin& other) { return other.at == pin.at; }) == 1);
    CHECK(std::ranges::any_of(symbol.strokes, [&](const drawing::Shape& stroke) {
      return std::ranges::count(std::visit(Corners{}, stroke.form), pin.at) > 0;
    }));
  }
  std::multiset<std::string> wanted;
  for (const part::Terminal& terminal : one.terminals()) wanted.insert(terminal.name);
  CHECK(drawn == wanted);
  CHECK(!symbol.strokes.empty());
  for (const drawing::Shape& stroke : symbol.strokes) {
    for (const Point at : std::visit(Corners{}, stroke.form)) {
      CHECK((at.x_mm >= 0.0 && at.x_mm <= symbol.width_mm));
      CHECK((at.y_mm >= 0.0 && at.y_mm <= symbol.height_mm));
    }
  }
}

}  // namespace

TEST_CASE("every terminal of every kind stands on its symbol's edge, every stroke in its frame") {
  for (const part::Kind& kind : part::kinds()) {
    CAPTURE(kind.description->name);
    check_symbol(*kind.make());
    for (const part::Field& field : kind.description->fields) {
      const auto* const count = std::get_if<part::CountField>(&field.what);
      if (count == nullptr) continue;
      CAPTURE(field.key);
      for (const int number : {2, 3, 7}) {
        if (number > count->highest) break;
        const auto more = kind.make();
        count->count(*more) = number;
        check_symbol(*more);
      }
    }
    for (const part::Field& field : kind.description->fields) {
      const auto* const choice = std::get_if<part::ChoiceField>(&field.what);
      for (std::size_t k = 0; choice != nullptr && k < choice->words.size(); ++k) {
        const auto other = kind.make();
        choice->choose(*other, k);
        check_symbol(*other);
      }
    }
  }
}

TEST_CASE("the sheet of symbols names every kind and stays on the page") {
  const drawing::Figure sheet = part::symbol_sheet();
  CHECK(sheet.shapes.size() == part::kinds().size());
  for (const drawing::Shape& shape : sheet.shapes) {
    const auto* const group = std::get_if<drawing::Group>(&shape.form);
    REQUIRE(group != nullptr);
    CHECK(part::find_kind(group->title) != nullptr);
    for (const drawing::Shape& stroke : group->shapes) {
      const auto* const text = std::get_if<drawing::Text>(&stroke.form);
      const Point at = text != nullptr ? text->at : std::visit(Corners{}, stroke.form).front();
      CHECK((at.x_mm >= 0.0 && at.x_mm <= sheet.width_mm));
      CHECK((at.y_mm >= 0.0 && at.y_mm <= sheet.height_mm));
    }
  }
}
