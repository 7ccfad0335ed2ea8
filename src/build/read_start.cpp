#include "base/text.hpp"
#include "build/sheet_reading.hpp"
#include "build/sheet_words.hpp"

namespace tideover::build {
namespace {

using base::TomlEntry;

void read_part_start(const TomlEntry& entry, SheetReading& reading) {
  if (!reading.fields.expect_table(entry.value, "the start of a part")) return;
  const part::Part* part = reading.find_part(entry.key, entry.key_place());
  for (const TomlEntry& stated : entry.value.entries) {
    if (stated.key == "charge") {
      quantity::Value<quantity::Ratio> charge;
      if (!reading.fields.read_amount(stated.value, "charge", start_charge(), charge)) continue;
      if (part != nullptr && part->description().name != "pack") {
        reading.fields.tell_sense(stated.key_place(),
                                  "only a pack starts with a charge; `" + entry.key + "` is " +
                                      part::with_article(part->description().name));
      }
      reading.build.start.charge[entry.key] = charge;
    } else if (stated.key == "temperature") {
      quantity::Value<quantity::Temperature> temperature;
      if (!reading.fields.read_amount(stated.value, "temperature", start_temperature(),
                                      temperature)) {
        continue;
      }
      reading.build.start.temperature[entry.key] = temperature;
    } else {
      reading.fields.tell_unknown_key(stated, "the start of a part", {"charge", "temperature"});
    }
  }
}

}  // namespace

void read_start(const base::TomlNode& table, SheetReading& reading) {
  if (!reading.fields.expect_table(table, "`start`")) return;
  for (const TomlEntry& entry : table.entries) {
    if (entry.key != "settled") {
      read_part_start(entry, reading);
    } else if (entry.value.kind == base::TomlNode::Kind::Boolean) {
      reading.build.start.is_settled = entry.value.boolean;
    } else {
      reading.fields.tell_form(entry.value.place(), "`settled`: expected true or false, found " +
                                                        base::in_words(entry.value.kind));
    }
  }
}

}  // namespace tideover::build
