#include <utility>

#include "base/text.hpp"
#include "build/sheet_reading.hpp"

namespace tideover::build {
namespace {

/// The ends of `between`; empty, after telling, unless both are sound.
std::vector<WiredEnd> read_between(const base::TomlNode& table, SheetReading& reading) {
  const base::TomlNode* node = table.find("between");
  if (node == nullptr) {
    reading.fields.tell_missing(table.place(), "between",
                                "Say where it goes: `between = [\"pack.plus\", \"f1.in\"]`.");
    return {};
  }
  if (node->kind != base::TomlNode::Kind::Array || node->items.size() != 2) {
    const std::string found = node->kind == base::TomlNode::Kind::Array
                                  ? std::to_string(node->items.size()) + " of them"
                                  : base::in_words(node->kind);
    reading.fields.tell_form(node->place(),
                             "`between` names the two ends of a lead, found " + found,
                             "Write `between = [\"pack.plus\", \"f1.in\"]`; more ends meet in a "
                             "join or a terminal block.");
    return {};
  }
  std::vector<WiredEnd> ends;
  for (const base::TomlNode& item : node->items) {
    if (auto end = reading.read_end(item)) ends.push_back(*std::move(end));
  }
  if (ends.size() < 2) return {};
  if (ends[0].terminal == ends[1].terminal) {
    reading.fields.tell_sense(ends[1].place, "both ends of this lead are one terminal",
                              "Name the terminal at its other end.");
    return {};
  }
  return ends;
}

void read_lead(const base::TomlEntry& entry, SheetReading& reading) {
  Lead lead;
  lead.name = entry.key;
  const bool is_named = reading.check_name(entry);
  if (!reading.fields.expect_table(entry.value, "a lead")) {
    reading.all_ties_sound = false;
    return;
  }
  const bool is_wire = reading.fields.read(entry.value, lead.wire, "wire", {"between"});
  if (is_wire && reading.fields.is_whole()) {
    tell_contradictions(lead.wire.contradictions(), entry.value, reading.fields);
  }
  std::vector<WiredEnd> ends = read_between(entry.value, reading);
  if (ends.empty() || !is_named) {
    reading.all_ties_sound = false;
    return;
  }
  lead.from = ends[0].terminal;
  lead.to = ends[1].terminal;
  reading.build.leads.push_back(lead);
  reading.ties.push_back({"lead `" + entry.key + "`", entry.key_place(), std::move(ends)});
}

}  // namespace

void read_leads(const base::TomlNode& table, SheetReading& reading) {
  if (!reading.fields.expect_table(table, "`leads`")) return;
  if (table.entries.size() > most_leads) {
    reading.fields.tell_form(table.place(), "more than " + std::to_string(most_leads) + " leads");
    return;
  }
  for (const base::TomlEntry& entry : table.entries) read_lead(entry, reading);
}

}  // namespace tideover::build
