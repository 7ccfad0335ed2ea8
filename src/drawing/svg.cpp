#include "drawing/svg.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <system_error>
#include <vector>

#include "base/contract.hpp"
#include "drawing/lettering.hpp"

namespace tideover::drawing {

namespace {

bool allowed_in_xml(char32_t letter) {
  if (letter < 0x20) return letter == U'\t' || letter == U'\n' || letter == U'\r';
  return letter != 0xFFFE && letter != 0xFFFF;
}

std::string hex_of(Colour colour) {
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string text = "#";
  for (const std::uint8_t part : {colour.red, colour.green, colour.blue}) {
    text += digits[part >> 4U];
    text += digits[part & 15U];
  }
  return text;
}

// FNV-1a, 64 bit (Fowler, Noll, Vo): spreads the ids of different figures apart.
std::string name_of(std::string_view content) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char letter : content) {
    hash ^= static_cast<unsigned char>(letter);
    hash *= 1099511628211ULL;
  }
  std::array<char, 16> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), hash, 36).ptr;
  return "f" + std::string(buffer.data(), end);
}

// Stands where the figure's name goes until the content is known. A control character: escaped
// words never hold it.
constexpr char name_mark = '\x01';

/// Writes shapes one after another and keeps the hatches they need.
class Writer {
 public:
  explicit Writer(Printing printing) : printing_(printing) {}

  void write(const Shape& shape) {
    std::visit([this](const auto& form) { write(form); }, shape.form);
  }
  void write(const std::vector<Shape>& shapes) {
    for (const Shape& shape : shapes) write(shape);
  }

  [[nodiscard]] const std::string& body() const { return body_; }
  [[nodiscard]] std::string definitions() const;

 private:
  void write(const Line& line);
  void write(const Polyline& polyline);
  void write(const Polygon& polygon);
  void write(const Rectangle& rectangle);
  void write(const Circle& circle);
  void write(const Arc& arc);
  void write(const Text& text);
  void write(const Group& group);

  void attribute(std::string_view name, double value) {
    body_.append(" ").append(name).append("=\"").append(compact_number(value)).append("\"");
  }
  void attribute(std::string_view name, std::string_view value) {
    body_.append(" ").append(name).append("=\"").append(value).append("\"");
  }
  void points(const std::vector<Point>& points);
  void stroke(const Stroke& stroke);
  void outline(const std::optional<Stroke>& outline, const Fill& fill);
  [[nodiscard]] std::string paint(Ink ink) const;
  [[nodiscard]] std::string paint(const Fill& fill);
  [[nodiscard]] std::string stroke_attributes(const Stroke& stroke) const;

  Printing printing_;
  std::string body_;
  std::vector<Hatch> hatches_;
};

std::string Writer::paint(Ink ink) const {
  const Colour colour = colour_of(ink);
  return hex_of(printing_ == Printing::Grey ? as_grey(colour) : colour);
}

std::string Writer::paint(const Fill& fill) {
  if (const auto* solid = std::get_if<SolidFill>(&fill)) return paint(solid->ink);
  const auto* hatch = std::get_if<Hatch>(&fill);
  if (hatch == nullptr) return "none";
  TIDEOVER_EXPECT(hatch->spacing_mm > 0.0, "a hatch has a spacing");
  std::size_t index = 0;
  while (index < hatches_.size() && !(hatches_[index] == *hatch)) ++index;
  if (index == hatches_.size()) hatches_.push_back(*hatch);
  return std::string("url(#") + name_mark + "-h" + std::to_string(index) + ")";
}

std::string Writer::stroke_attributes(const Stroke& stroke) const {
  std::string text = " stroke=\"" + paint(stroke.ink) + "\" stroke-width=\"" +
                     compact_number(stroke.width_mm) + "\"";
  const std::span<const double> lengths = dash_lengths_mm(stroke.dash);
  if (lengths.empty()) return text;
  text += " stroke-dasharray=\"";
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    if (i > 0) text += ' ';
    text += compact_number(lengths[i]);
  }
  return text + '"';
}

void Writer::stroke(const Stroke& stroke) { body_ += stroke_attributes(stroke); }

void Writer::outline(const std::optional<Stroke>& outline, const Fill& fill) {
  attribute("fill", paint(fill));
  if (outline) stroke(*outline);
}

void Writer::points(const std::vector<Point>& points) {
  body_ += " points=\"";
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i > 0) body_ += ' ';
    body_.append(compact_number(points[i].x_mm)).append(",");
    body_.append(compact_number(points[i].y_mm));
  }
  body_ += '"';
}

void Writer::write(const Line& line) {
  body_ += "<line";
  attribute("x1", line.from.x_mm);
  attribute("y1", line.from.y_mm);
  attribute("x2", line.to.x_mm);
  attribute("y2", line.to.y_mm);
  stroke(line.stroke);
  body_ += "/>\n";
}

void Writer::write(const Polyline& polyline) {
  TIDEOVER_EXPECT(polyline.points.size() >= 2, "a polyline has two points");
  body_ += "<polyline";
  points(polyline.points);
  attribute("fill", "none");
  attribute("stroke-linejoin", "round");
  stroke(polyline.stroke);
  body_ += "/>\n";
}

void Writer::write(const Polygon& polygon) {
  TIDEOVER_EXPECT(polygon.points.size() >= 3, "a polygon has three points");
  body_ += "<polygon";
  points(polygon.points);
  outline(polygon.stroke, polygon.fill);
  body_ += "/>\n";
}

void Writer::write(const Rectangle& rectangle) {
  body_ += "<rect";
  attribute("x", rectangle.box.left_mm);
  attribute("y", rectangle.box.top_mm);
  attribute("width", rectangle.box.width_mm());
  attribute("height", rectangle.box.height_mm());
  if (rectangle.corner_radius_mm > 0.0) attribute("rx", rectangle.corner_radius_mm);
  outline(rectangle.stroke, rectangle.fill);
  body_ += "/>\n";
}

void Writer::write(const Circle& circle) {
  body_ += "<circle";
  attribute("cx", circle.centre.x_mm);
  attribute("cy", circle.centre.y_mm);
  attribute("r", circle.radius_mm);
  outline(circle.stroke, circle.fill);
  body_ += "/>\n";
}

void Writer::write(const Arc& arc) {
  TIDEOVER_EXPECT(std::abs(arc.sweep_deg) < 360.0, "a full turn is a circle");
  const auto at = [&arc](double angle_deg) {
    const double angle = angle_deg * std::numbers::pi / 180.0;
    return compact_number(arc.centre.x_mm + arc.radius_mm * std::cos(angle)) + ' ' +
           compact_number(arc.centre.y_mm + arc.radius_mm * std::sin(angle));
  };
  const std::string radius = compact_number(arc.radius_mm);
  body_.append("<path d=\"M").append(at(arc.start_deg)).append("A").append(radius).append(" ");
  body_.append(radius).append(" 0 ").append(std::abs(arc.sweep_deg) > 180.0 ? "1" : "0");
  body_.append(arc.sweep_deg > 0.0 ? " 1 " : " 0 ");
  body_.append(at(arc.start_deg + arc.sweep_deg)).append("\"");
  attribute("fill", "none");
  stroke(arc.stroke);
  body_ += "/>\n";
}

void Writer::write(const Text& text) {
  body_ += "<text";
  attribute("x", text.at.x_mm);
  attribute("y", text.at.y_mm);
  attribute("font-size", text.size_mm);
  attribute("fill", paint(text.ink));
  if (text.anchor == Anchor::Middle) attribute("text-anchor", "middle");
  if (text.anchor == Anchor::End) attribute("text-anchor", "end");
  if (text.bold) attribute("font-weight", "bold");
  if (text.rotation_deg != 0.0) {
    attribute("transform", "rotate(" + compact_number(text.rotation_deg) + ' ' +
                               compact_number(text.at.x_mm) + ' ' + compact_number(text.at.y_mm) +
                               ')');
  }
  body_.append(">").append(xml_escaped(text.words)).append("</text>\n");
}

void Writer::write(const Group& group) {
  body_ += "<g>\n";
  if (!group.title.empty()) {
    body_.append("<title>").append(xml_escaped(group.title)).append("</title>\n");
  }
  if (!group.description.empty()) {
    body_.append("<desc>").append(xml_escaped(group.description)).append("</desc>\n");
  }
  write(group.shapes);
  body_ += "</g>\n";
}

std::string Writer::definitions() const {
  if (hatches_.empty()) return {};
  std::string text = "<defs>\n";
  for (std::size_t i = 0; i < hatches_.size(); ++i) {
    const std::string spacing = compact_number(hatches_[i].spacing_mm);
    const std::string middle = compact_number(hatches_[i].spacing_mm / 2.0);
    text.append("<pattern id=\"").append(1, name_mark).append("-h").append(std::to_string(i));
    text.append("\" patternUnits=\"userSpaceOnUse\" width=\"").append(spacing);
    text.append("\" height=\"").append(spacing).append("\" patternTransform=\"rotate(");
    text.append(compact_number(hatches_[i].angle_deg)).append(")\"><line x1=\"0\" y1=\"");
    text.append(middle).append("\" x2=\"").append(spacing).append("\" y2=\"").append(middle);
    text.append("\"").append(stroke_attributes(hatches_[i].stroke)).append("/></pattern>\n");
  }
  return text + "</defs>\n";
}

std::string head(const Figure& figure) {
  const std::string width = compact_number(figure.width_mm);
  const std::string height = compact_number(figure.height_mm);
  std::string text = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width +
                     "mm\" height=\"" + height + "mm\" viewBox=\"0 0 " + width + ' ' + height +
                     "\" role=\"img\" aria-labelledby=\"";
  text.append(1, name_mark).append("-t\" aria-describedby=\"").append(1, name_mark);
  text.append("-d\" font-family=\"Helvetica, Arial, 'Liberation Sans', sans-serif\">\n");
  text.append("<title id=\"").append(1, name_mark).append("-t\">");
  text.append(xml_escaped(figure.title)).append("</title>\n<desc id=\"");
  text.append(1, name_mark).append("-d\">").append(xml_escaped(figure.description));
  return text + "</desc>\n";
}

std::string with_name(const std::string& content) {
  const std::string name = name_of(content);
  std::string text;
  text.reserve(content.size() + 256);
  for (const char letter : content) {
    if (letter == name_mark) {
      text += name;
    } else {
      text += letter;
    }
  }
  return text;
}

}  // namespace

std::string compact_number(double value) {
  TIDEOVER_EXPECT(std::isfinite(value), "a number in a drawing is finite");
  std::array<char, 400> buffer{};
  const auto written = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                     std::chars_format::fixed, 3);
  TIDEOVER_EXPECT(written.ec == std::errc{}, "a number fits its buffer");
  std::string text(buffer.data(), written.ptr);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string xml_escaped(std::string_view words) {
  std::string text;
  text.reserve(words.size() + words.size() / 8);
  while (!words.empty()) {
    const CodePoint letter = first_code_point(words);
    const std::string_view bytes = words.substr(0, words.size() - letter.rest.size());
    words = letter.rest;
    switch (letter.value) {
      case U'&': text += "&amp;"; break;
      case U'<': text += "&lt;"; break;
      case U'>': text += "&gt;"; break;
      case U'"': text += "&quot;"; break;
      case U'\'': text += "&#39;"; break;
      case 0xFFFD: text += "\xEF\xBF\xBD"; break;
      default:
        if (allowed_in_xml(letter.value)) {
          text += bytes;
        } else {
          text += "\xEF\xBF\xBD";
        }
    }
  }
  return text;
}

std::string svg(const Figure& figure, Printing printing) {
  TIDEOVER_EXPECT(figure.width_mm > 0.0 && figure.height_mm > 0.0, "a figure has a size");
  Writer writer(printing);
  writer.write(figure.shapes);
  return with_name(head(figure) + writer.definitions() + writer.body() + "</svg>\n");
}

}  // namespace tideover::drawing
