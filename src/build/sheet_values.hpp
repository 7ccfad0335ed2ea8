/// Every value of a sheet as a person sees and changes it: its text, where it stands, what it
/// means, what may stand there. Made from the descriptions of the kinds and from the sheet's text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/toml.hpp"
#include "build/build.hpp"
#include "part/read_fields.hpp"
#include "quantity/choices.hpp"

namespace tideover::build {

struct SheetValue {
  enum class Takes {
    Amount,
    Range,
    Count,
    Word,
    Flag,
    Text,
    PartName,
    Row,  ///< "shelf:name"
  };
  enum class Stands { Sheet, Shelf, Default };

  std::string key;   ///< inside its item: "capacity", "cell.capacity", "profile.2.draws"
  std::string path;  ///< in the sheet: "parts.pack.cell.capacity"
  std::string text;  ///< as in the sheet; what is taken where it is left out, exactly; may be empty
  std::string unit;
  std::string tolerance;  ///< "+/- 1.5 %"
  std::string origin;     ///< a word of part::origin_words(); empty for a default
  std::string source;
  std::string means;
  Takes takes = Takes::Text;
  Stands stands = Stands::Default;
  bool is_required = false;
  int line = 0;                    ///< of the value, or of the table it would stand in
  std::vector<std::string> words;  ///< what may stand there, where only some words may
  quantity::Choices choices;       ///< of counts, and of amounts that are not left out
  std::string least;               ///< physical range
  std::string most;
};

/// A part, a lead, a stretch of a timeline.
struct SheetItem {
  std::string name;
  std::string kind;
  std::string means;
  std::string note;
  int line = 0;
  std::vector<SheetValue> values;
};

struct SheetTimeline {
  SheetItem item;  ///< what is said of it as a whole
  std::vector<SheetItem> stretches;
};

struct SheetValues {
  std::vector<SheetValue> head;
  std::vector<SheetValue> needs;
  std::vector<SheetItem> parts;
  std::vector<SheetItem> leads;
  std::vector<SheetTimeline> timelines;
  std::vector<SheetValue> start;
};

/// `build` was read from the text that `root` is the tree of; where they differ, because a value
/// was set since, the build's value is told. The build is not changed.
[[nodiscard]] SheetValues sheet_values(Build& build, const base::TomlNode& root,
                                       const part::Stock& shelf);

/// "amount", "range", "count", "word", "flag", "text", "part", "row".
[[nodiscard]] std::string_view in_words(SheetValue::Takes takes);
/// "sheet", "shelf", "default".
[[nodiscard]] std::string_view in_words(SheetValue::Stands stands);

}  // namespace tideover::build
