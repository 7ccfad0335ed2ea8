#include "service/values_verb.hpp"

#include <fmt/format.h>

#include "base/toml.hpp"
#include "build/sheet_values.hpp"
#include "service/project.hpp"
#include "service/values_json.hpp"
#include "service/working_text.hpp"
#include "shelf/shelf.hpp"

namespace tideover::service {

namespace {

using build::SheetItem;
using build::SheetValue;

/// "line 82, measured" or "left out: typical of good crimps".
std::string whence(const SheetValue& value) {
  std::string words;
  switch (value.stands) {
    case SheetValue::Stands::Sheet: words = fmt::format("line {}", value.line); break;
    case SheetValue::Stands::Shelf: words = "from the shelf"; break;
    case SheetValue::Stands::Default: words = "left out"; break;
  }
  for (const std::string* more : {&value.origin, &value.source}) {
    if (!more->empty()) words += ", " + *more;
  }
  return words;
}

void add_values(const std::vector<SheetValue>& values, std::vector<Line>& lines) {
  for (const SheetValue& value : values) {
    if (value.text.empty()) continue;
    const bool is_said = value.stands != SheetValue::Stands::Default;
    lines.push_back({is_said ? Tone::Plain : Tone::Quiet,
                     fmt::format("  {} = {}  ({})", value.key, value.text, whence(value))});
  }
}

void add_items(const std::vector<SheetItem>& items, std::vector<Line>& lines) {
  for (const SheetItem& item : items) {
    lines.push_back({Tone::Strong, item.name + ": " + item.kind});
    if (!item.note.empty()) lines.push_back({Tone::Quiet, "  " + item.note});
    add_values(item.values, lines);
  }
}

std::vector<Line> lines_of(const build::SheetValues& values) {
  std::vector<Line> lines{{Tone::Strong, "needs"}};
  add_values(values.needs, lines);
  add_items(values.parts, lines);
  add_items(values.leads, lines);
  for (const build::SheetTimeline& timeline : values.timelines) {
    lines.push_back({Tone::Strong, timeline.item.name + ": timeline"});
    add_values(timeline.item.values, lines);
    for (const SheetItem& stretch : timeline.stretches) {
      lines.push_back({Tone::Plain, fmt::format("  stretch {}: {}  (line {})", stretch.name,
                                                stretch.means, stretch.line)});
    }
  }
  lines.push_back({Tone::Strong, "start"});
  add_values(values.start, lines);
  return lines;
}

Reply values(const Request& request, base::Progress&) {
  const auto text = working_text(request);
  if (!text) return refusal(text.problems());
  const auto read = read_project(request);
  if (!read) return refusal(read.problems());
  build::Build build = read.value().copy();
  const base::TomlReading toml = base::read_toml(text.value(), build.file);
  const build::SheetValues all = build::sheet_values(build, toml.root, shelf::built_in_shelf());
  Reply reply;
  reply.lines = lines_of(all);
  reply.json = with_preamble("values", build, values_json(build, all));
  return reply;
}

}  // namespace

Verb values_verb() {
  return {"values", "list every value of the sheet and what may stand in its place",
          "Every value of every part, lead, need and timeline: as it stands in the sheet, taken "
          "from the shelf, or left out; its unit, tolerance and origin, what it means, the line it "
          "stands on, and round values around it that could be tried. Writes nothing.",
          true, values};
}

}  // namespace tideover::service
