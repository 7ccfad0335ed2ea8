#include "cell/heading_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <span>

#include "base/text.hpp"
#include "cell/log_headings.hpp"

namespace tideover::cell {
namespace {

using Words = std::span<const std::string_view>;

constexpr std::array<std::string_view, 14> voltage{
    "v",    "u",     "volt",  "volts", "voltage", "voltages", "vbat",
    "ubat", "vcell", "ucell", "ocv",   "vrest",   "spannung", "voltaje"};
constexpr std::array<std::string_view, 11> current{"i",      "current", "amps",     "amp",
                                                   "ampere", "amperes", "ibat",     "strom",
                                                   "icell",  "courant", "corriente"};
constexpr std::array<std::string_view, 14> charge{
    "q",          "capacity", "cap",      "charge",    "qchg",     "qdis",     "qdchg",
    "kapazitaet", "ladung",   "capacite", "capacidad", "amphours", "coulombs", "counter"};
constexpr std::array<std::string_view, 10> charging{
    "chg", "charge", "charging", "chrg", "qchg", "ch", "charged", "laden", "in", "recharge"};
constexpr std::array<std::string_view, 14> discharging{
    "dchg",    "dischg", "dis",   "dch",      "discharge", "discharging", "discharged",
    "dischrg", "dischr", "disch", "entladen", "qdis",      "qdchg",       "out"};
constexpr std::array<std::string_view, 7> temperature{"temp",  "temperature", "temperatur", "temps",
                                                      "tcell", "tcase",       "temperatura"};
constexpr std::array<std::string_view, 13> ambient{
    "air",  "ambient",  "amb",     "chamber", "room", "environment", "oven",
    "raum", "umgebung", "outside", "env",     "tamb", "surroundings"};
constexpr std::array<std::string_view, 13> resistance{
    "r",   "ir",  "ri", "resistance", "impedance",   "dcir",           "acir",
    "esr", "rdc", "r0", "widerstand", "resistencia", "innenwiderstand"};
constexpr std::array<std::string_view, 14> time{
    "t",       "time",  "elapsed", "timestamp", "datetime", "clock",  "zeit",
    "uhrzeit", "dauer", "epoch",   "testtime",  "runtime",  "tiempo", "duration"};
constexpr std::array<std::string_view, 7> date{"date",  "datum",  "day", "datetime",
                                               "fecha", "tested", "when"};
constexpr std::array<std::string_view, 6> partial{"step", "cycle",    "relative",
                                                  "rest", "steptime", "schritt"};
constexpr std::array<std::string_view, 4> total{"total", "test", "elapsed", "gesamt"};
constexpr std::array<std::string_view, 6> cell{"cell",    "cells", "zelle",
                                               "cellule", "celda", "battery"};
constexpr std::array<std::string_view, 8> serial{"serial", "barcode", "id",       "name",
                                                 "sn",     "sample",  "specimen", "label"};
constexpr std::array<std::string_view, 6> channel{"channel", "chan", "slot", "bay", "kanal", "chl"};
constexpr std::array<std::string_view, 5> ordinal{"no", "nr", "num", "number", "nummer"};
constexpr std::array<std::string_view, 12> state{"state",  "mode",      "status", "function",
                                                 "action", "operation", "type",   "zustand",
                                                 "modus",  "direction", "md",     "typ"};
constexpr std::array<std::string_view, 14> run{"run",   "part",  "test",    "block",   "discharge",
                                               "cycle", "pulse", "section", "program", "series",
                                               "loop",  "set",   "file",    "script"};
constexpr std::array<std::string_view, 4> step{"step", "phase", "stage", "schritt"};
constexpr std::array<std::string_view, 8> extreme{"min",     "max",    "minimum", "maximum",
                                                  "highest", "lowest", "peak",    "start"};
constexpr std::array<std::string_view, 4> mean{"mean", "average", "avg", "mittel"};
constexpr std::array<std::string_view, 32> foreign{
    "set",       "setpoint", "target",  "limit", "cutoff",     "cut",   "nominal", "rated",
    "reference", "ref",      "std",     "sd",    "ripple",     "delta", "diff",    "error",
    "accuracy",  "soc",      "soh",     "dod",   "energy",     "power", "rms",     "efficiency",
    "supply",    "input",    "charger", "usb",   "resolution", "range", "drop",    "rate"};

Words words_in(Word group) {
  switch (group) {
    case Word::Voltage: return voltage;
    case Word::Current: return current;
    case Word::Charge: return charge;
    case Word::Charging: return charging;
    case Word::Discharging: return discharging;
    case Word::Temperature: return temperature;
    case Word::Ambient: return ambient;
    case Word::Resistance: return resistance;
    case Word::Time: return time;
    case Word::Date: return date;
    case Word::Partial: return partial;
    case Word::Total: return total;
    case Word::Cell: return cell;
    case Word::Serial: return serial;
    case Word::Channel: return channel;
    case Word::Ordinal: return ordinal;
    case Word::State: return state;
    case Word::Run: return run;
    case Word::Step: return step;
    case Word::Extreme: return extreme;
    case Word::Mean: return mean;
    case Word::Foreign: return foreign;
  }
  return {};
}

struct Spelling {
  std::string_view bytes;
  std::string_view ascii;
};

constexpr std::array<Spelling, 15> spellings{{
    {"\xC2\xB0", "deg"},
    {"\xE2\x84\x83", "degC"},
    {"\xC2\xB5", "u"},
    {"\xCE\xBC", "u"},
    {"\xCE\xA9", "ohm"},
    {"\xE2\x84\xA6", "ohm"},
    {"\xC3\xA4", "ae"},
    {"\xC3\xB6", "oe"},
    {"\xC3\xBC", "ue"},
    {"\xC3\xA9", "e"},
    {"\xC3\xA8", "e"},
    {"\xC2\xB7", "*"},
    {"\xB0", "deg"},
    {"\xB5", "u"},
    {"\xC2\xBA", "deg"},
}};

bool is_alnum(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

}  // namespace

bool is_word(std::string_view word, Word group) {
  return std::ranges::find(words_in(group), word) != words_in(group).end();
}

std::string spelt_in_ascii(std::string_view text) {
  std::string ascii;
  while (!text.empty()) {
    const auto* const found = std::ranges::find_if(
        spellings, [text](const Spelling& spelling) { return text.starts_with(spelling.bytes); });
    if (found != spellings.end()) {
      ascii += found->ascii;
      text.remove_prefix(found->bytes.size());
      continue;
    }
    ascii += static_cast<unsigned char>(text.front()) < 0x80 ? text.front() : ' ';
    text.remove_prefix(1);
  }
  return ascii;
}

std::vector<std::string> words_of(std::string_view heading) {
  const std::string ascii = spelt_in_ascii(heading);
  std::vector<std::string> words;
  for (std::size_t at = 0; at < ascii.size();) {
    if (!is_alnum(ascii[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < ascii.size() && is_alnum(ascii[end])) ++end;
    std::string_view token = std::string_view(ascii).substr(at, end - at);
    at = end;
    // A capital behind a small letter begins a word, but for units such as mAh.
    while (!read_unit(token)) {
      const auto* const inside = std::ranges::adjacent_find(token, [](char a, char b) {
        return std::islower(static_cast<unsigned char>(a)) != 0 &&
               std::isupper(static_cast<unsigned char>(b)) != 0;
      });
      if (inside == token.end()) break;
      const auto cut = static_cast<std::size_t>(inside - token.begin()) + 1;
      words.push_back(base::lower_case(token.substr(0, cut)));
      token.remove_prefix(cut);
    }
    words.push_back(base::lower_case(token));
  }
  return words;
}

}  // namespace tideover::cell
