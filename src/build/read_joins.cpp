#include <map>
#include <utility>

#include "base/text.hpp"
#include "build/sheet_reading.hpp"
#include "build/sheet_words.hpp"

namespace tideover::build {
namespace {

using Joined = std::map<TerminalName, std::string>;  ///< terminal -> the join it is in

void read_ends(const base::TomlNode& list, Join& join, Tie& tie, Joined& joined,
               SheetReading& reading) {
  for (const base::TomlNode& item : list.items) {
    auto end = reading.read_end(item);
    if (!end) {
      reading.all_ties_sound = false;
      continue;
    }
    const std::string name = "`" + end->terminal.part + "." + end->terminal.terminal + "`";
    const auto [at, is_new] = joined.emplace(end->terminal, join.name);
    if (!is_new && at->second == join.name) {
      reading.fields.tell_sense(end->place, name + " stands twice in this join", "Keep one.");
    } else if (!is_new) {
      reading.fields.tell_sense(end->place, name + " is in join `" + at->second + "` already",
                                "What meets in one point is one join: put both together.");
    }
    join.terminals.push_back(end->terminal);
    tie.ends.push_back(*std::move(end));
  }
}

void read_join(const base::TomlEntry& entry, Joined& joined, SheetReading& reading) {
  const bool is_named = reading.check_name(entry);
  if (!is_named || !reading.fields.expect_table(entry.value, "a join")) {
    reading.all_ties_sound = false;
    return;
  }
  for (const base::TomlEntry& other : entry.value.entries) {
    if (other.key != "terminals") reading.fields.tell_unknown_key(other, "a join", {"terminals"});
  }
  const base::TomlNode* list = entry.value.find("terminals");
  if (list == nullptr) {
    reading.all_ties_sound = false;
    reading.fields.tell_missing(entry.value.place(), "terminals",
                                "Say what meets here: `terminals = [\"a.minus\", \"b.minus\"]`.");
    return;
  }
  if (list->kind != base::TomlNode::Kind::Array || list->items.size() < 2 ||
      list->items.size() > most_joined) {
    reading.all_ties_sound = false;
    reading.fields.tell_form(list->place(),
                             "a join names 2 to 100 terminals that meet in one point",
                             "Write `terminals = [\"a.minus\", \"b.minus\"]`.");
    return;
  }
  Join join{entry.key, {}};
  Tie tie{"join `" + entry.key + "`", entry.key_place(), {}};
  read_ends(*list, join, tie, joined, reading);
  reading.build.joins.push_back(std::move(join));
  reading.ties.push_back(std::move(tie));
}

}  // namespace

void read_joins(const base::TomlNode& table, SheetReading& reading) {
  if (!reading.fields.expect_table(table, "`joins`")) return;
  Joined joined;
  for (const base::TomlEntry& entry : table.entries) read_join(entry, joined, reading);
}

}  // namespace tideover::build
