#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "build/sheet_reading.hpp"
#include "build/sheet_words.hpp"
#include "part/load/load.hpp"
#include "part/switch/switch.hpp"

namespace tideover::build {
namespace {

using base::TomlEntry;
using base::TomlNode;
using Kind = base::TomlNode::Kind;

/// The part of that name if it is of the kind that `key` is about; tells otherwise.
template <class P>
const P* find_of_kind(const TomlEntry& entry, const std::string& kind, SheetReading& reading) {
  const part::Part* part = reading.find_part(entry.key, entry.key_place());
  if (part == nullptr) return nullptr;
  if (part->description().name == kind) return dynamic_cast<const P*>(part);
  reading.fields.tell_sense(entry.key_place(), "`" + entry.key + "` is " +
                                                   part::with_article(part->description().name) +
                                                   ", not " + part::with_article(kind));
  return nullptr;
}

void read_mains(const TomlNode& node, Stretch& stretch, SheetReading& reading) {
  if (node.kind == Kind::Text) {
    const int index = reading.fields.read_word(node, mains_words());
    if (index < 0) return;
    Change change;
    change.what = Change::What::Mains;
    change.mains = static_cast<Change::Mains>(index);
    stretch.changes.push_back(change);
    return;
  }
  if (!reading.fields.expect_table(node, "`mains` of several adapters")) return;
  for (const TomlEntry& entry : node.entries) {
    const int index = reading.fields.read_word(entry.value, mains_words());
    const auto* adapter = find_of_kind<part::Part>(entry, "adapter", reading);
    if (index < 0 || adapter == nullptr) continue;
    Change change;
    change.what = Change::What::Mains;
    change.part = entry.key;
    change.mains = static_cast<Change::Mains>(index);
    stretch.changes.push_back(change);
  }
}

void read_switches(const TomlNode& node, Stretch& stretch, SheetReading& reading) {
  if (!reading.fields.expect_table(node, "`switches`")) return;
  for (const TomlEntry& entry : node.entries) {
    if (entry.value.kind != Kind::Integer || entry.value.integer < 0 ||
        entry.value.integer > highest_position) {
      reading.fields.tell_form(entry.value.place(),
                               "expected a position of the switch, counted from 0",
                               "Position 0 is off, 1 the first way: `{ " + entry.key + " = 0 }`.");
      continue;
    }
    const auto* part = find_of_kind<part::Switch>(entry, "switch", reading);
    if (part == nullptr) continue;
    const int lowest = part->has_off ? 0 : 1;
    if (entry.value.integer < lowest || entry.value.integer > part->ways) {
      reading.fields.tell_sense(entry.value.place(), "`" + entry.key + "` has positions " +
                                                         std::to_string(lowest) + " to " +
                                                         std::to_string(part->ways));
      continue;
    }
    Change change;
    change.what = Change::What::Switch;
    change.part = entry.key;
    change.position = static_cast<int>(entry.value.integer);
    stretch.changes.push_back(change);
  }
}

void read_profiles(const TomlNode& node, Stretch& stretch, SheetReading& reading) {
  if (!reading.fields.expect_table(node, "`profiles`")) return;
  for (const TomlEntry& entry : node.entries) {
    const std::string* word = reading.fields.read_text(entry.value, "the name of a profile");
    const auto* load = find_of_kind<part::Load>(entry, "load", reading);
    if (word == nullptr || load == nullptr) continue;
    std::vector<std::string> names;
    for (const part::ProfileStretch& stretch_of : load->profile) {
      if (names.empty() || names.back() != stretch_of.name) names.push_back(stretch_of.name);
    }
    if (std::find(names.begin(), names.end(), *word) == names.end()) {
      const auto near = base::nearest_word(*word, names);
      reading.fields.tell_sense(
          entry.value.place(), "`" + entry.key + "` has no profile `" + *word + "`",
          near            ? "Did you mean `" + *near + "`?"
          : names.empty() ? "It has none."
                          : "It has " + base::quoted_list(names, "and") + ".");
      continue;
    }
    Change change;
    change.what = Change::What::Profile;
    change.part = entry.key;
    change.profile = *word;
    stretch.changes.push_back(change);
  }
}

void read_ambient(const TomlNode& node, Stretch& stretch, SheetReading& reading) {
  Change change;
  change.what = Change::What::Ambient;
  if (!reading.fields.read_amount(node, "ambient", stretch_ambient(), change.ambient)) return;
  stretch.changes.push_back(change);
}

void read_length(const TomlNode& table, Stretch& stretch, SheetReading& reading) {
  if (const TomlNode* lasts = table.find("lasts")) {
    quantity::Value<quantity::Second> length;
    if (reading.fields.read_amount(*lasts, "lasts", stretch_length(), length))
      stretch.lasts = length;
  }
  if (const TomlNode* until = table.find("until")) {
    const int index = reading.fields.read_word(*until, until_words());
    // Until::Time has no word of its own.
    if (index >= 0) stretch.until = static_cast<Until>(index + 1);
  }
  if (table.find("lasts") == nullptr && table.find("until") == nullptr) {
    reading.fields.tell_missing(table.place(), "lasts",
                                "Say how long the stretch lasts, `lasts = \"30 min\"`, or "
                                "`until` which event.");
  }
}

Stretch read_stretch(const TomlNode& table, SheetReading& reading) {
  Stretch stretch;
  stretch.place = table.place();
  if (!reading.fields.expect_table(table, "a stretch")) return stretch;
  for (const TomlEntry& entry : table.entries) {
    const std::string& key = entry.key;
    if (key == "mains") read_mains(entry.value, stretch, reading);
    if (key == "switches") read_switches(entry.value, stretch, reading);
    if (key == "profiles") read_profiles(entry.value, stretch, reading);
    if (key == "ambient") read_ambient(entry.value, stretch, reading);
    const std::vector<std::string>& keys = stretch_keys();
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) {
      reading.fields.tell_unknown_key(entry, "a stretch", keys);
    }
  }
  read_length(table, stretch, reading);
  return stretch;
}

void read_repeats(const TomlNode& node, Timeline& timeline, SheetReading& reading) {
  if (node.kind == Kind::Integer && node.integer >= 1 && node.integer <= most_repeats) {
    timeline.repeats = static_cast<int>(node.integer);
    return;
  }
  reading.fields.tell_form(
      node.place(), "`repeats`: expected a whole number from 1 to " + std::to_string(most_repeats));
}

Timeline read_timeline(const TomlEntry& entry, SheetReading& reading) {
  Timeline timeline;
  timeline.name = entry.key;
  reading.check_name(entry);
  if (!reading.fields.expect_table(entry.value, "a timeline")) return timeline;
  for (const TomlEntry& other : entry.value.entries) {
    if (other.key == "repeats") {
      read_repeats(other.value, timeline, reading);
    } else if (other.key != "stretch") {
      reading.fields.tell_unknown_key(other, "a timeline", {"stretch", "repeats"});
    }
  }
  const TomlNode* stretches = entry.value.find("stretch");
  if (stretches == nullptr) {
    reading.fields.tell_missing(entry.value.place(), "stretch",
                                "Write `[[timelines." + entry.key + ".stretch]]`, once a stretch.");
    return timeline;
  }
  if (stretches->kind != Kind::Array || stretches->items.empty() ||
      stretches->items.size() > most_stretches) {
    reading.fields.tell_form(stretches->place(),
                             "expected 1 to " + std::to_string(most_stretches) + " stretches",
                             "Write `[[timelines." + entry.key + ".stretch]]`, once a stretch.");
    return timeline;
  }
  for (const TomlNode& item : stretches->items) {
    timeline.stretches.push_back(read_stretch(item, reading));
  }
  return timeline;
}

}  // namespace

void read_timelines(const TomlNode& table, SheetReading& reading) {
  if (!reading.fields.expect_table(table, "`timelines`")) return;
  for (const TomlEntry& entry : table.entries) {
    reading.build.timelines.push_back(read_timeline(entry, reading));
  }
}

}  // namespace tideover::build
