#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "part/wire/colour.hpp"
#include "quantity/show.hpp"

namespace tideover::papers {

using part::AmountField;
using part::Described;
using part::Field;
using quantity::Amount;

namespace {

std::string_view origin_in_words(quantity::Origin origin) {
  switch (origin) {
    case quantity::Origin::Measured: return "measured";
    case quantity::Origin::Datasheet: return "datasheet";
    case quantity::Origin::Typical: return "typical";
    case quantity::Origin::Assumed: break;
  }
  return "assumed";
}

std::string show_field(const AmountField& field, const Amount& amount) {
  const quantity::Measure measure{field.dimension, field.is_temperature_point};
  if (field.is_range) return quantity::show_range(amount.low_si, amount.high_si, measure, 4);
  return quantity::show_amount(amount, measure, 4);
}

/// Told in the title of the part's group.
bool is_in_title(const Field& field) { return field.key == "where" || field.key == "note"; }

/// All items of a list on one line each: a table of rest voltages is twenty of them.
std::string in_one_line(Described& item);

class ValueRows {
 public:
  explicit ValueRows(RowGroup& group) : group_(group) {}

  void add(Described& thing, const std::string& prefix) {
    for (const Field& field : thing.description().fields) {
      if (!is_in_title(field)) add_field(thing, field, prefix);
    }
  }

 private:
  void put(const std::string& key, const Field& field, std::string value, std::string from,
           std::string source) {
    group_.rows.push_back({key, field.means, std::move(value), std::move(from), std::move(source)});
  }

  void add_amount(const std::string& key, const Field& field, const AmountField& what,
                  const Amount& amount) {
    if (amount.given) {
      put(key, field, show_field(what, amount), std::string(origin_in_words(amount.origin)),
          amount.source);
    } else if (amount.nominal_si == 0.0 && amount.high_si == 0.0) {
      // Zero stands for what the default's words say, or for a thing that this build has not.
      if (!field.default_source.empty()) put(key, field, "\u2013", "default", field.default_source);
    } else {
      put(key, field, show_field(what, amount), "default", field.default_source);
    }
  }

  void add_field(Described& thing, const Field& field, const std::string& prefix) {
    const std::string key = prefix + field.key;
    if (const auto* const amount = std::get_if<AmountField>(&field.what)) {
      add_amount(key, field, *amount, amount->amount(thing));
    } else if (const auto* const count = std::get_if<part::CountField>(&field.what)) {
      put(key, field, std::to_string(count->count(thing)), "", field.default_source);
    } else if (const auto* const choice = std::get_if<part::ChoiceField>(&field.what)) {
      put(key, field, std::string(choice->words[choice->chosen(thing)]), "", field.default_source);
    } else if (const auto* const flag = std::get_if<part::FlagField>(&field.what)) {
      put(key, field, flag->flag(thing) ? "yes" : "no", "", field.default_source);
    } else if (const auto* const text = std::get_if<part::TextField>(&field.what)) {
      if (!text->text(thing).empty()) put(key, field, text->text(thing), "", "");
    } else if (const auto* const record = std::get_if<part::RecordField>(&field.what)) {
      add(record->record(thing), key + ".");
    } else if (const auto* const records = std::get_if<part::RecordsField>(&field.what)) {
      std::size_t number = 0;
      for (Described* item : records->all(thing)) {
        put(fmt::format("{} {}", key, ++number), field, in_one_line(*item), "", "");
      }
    }
  }

  RowGroup& group_;
};

std::string in_one_line(Described& item) {
  RowGroup group;
  ValueRows(group).add(item, "");
  std::string text;
  for (const auto& row : group.rows) {
    if (!text.empty()) text += ", ";
    text += row[0] + " " + row[2];
    if (!row[3].empty() && row[3] != "default") text += " (" + row[3] + ")";
  }
  return text;
}

/// Name, kind, whereabouts and note of a part: not repeated among its values.
std::string title_of(const part::Part& part) {
  const char* const where = part.where == part::Whereabouts::Outside ? ", outside the box" : "";
  const std::string note = part.note.empty() ? "" : ": " + part.note;
  return fmt::format("{} \u2013 {}{}{}", part.name, part.description().name, where, note);
}

/// The greatest current through a lead in the judged runs.
double highest_current(const std::vector<question::Extremes>& extremes, const std::string& lead) {
  for (const question::Extremes& one : extremes) {
    if (one.channel.part != "leads." + lead) continue;
    return std::max(std::abs(one.lowest.value_si), std::abs(one.highest.value_si));
  }
  return std::nan("");
}

std::string show_terminal(const build::TerminalName& name) {
  return name.part + "." + name.terminal;
}

std::string show_current(double amps) {
  return std::isnan(amps) ? "\u2013" : quantity::show(quantity::Ampere::of_si(amps));
}

/// What it carries in the usual run for a second or more.
double lasting_current(const run::Record& record, const std::string& lead) {
  const int channel = record.find("leads." + lead, "current");
  return channel < 0 ? std::nan("")
                     : question::lasting_size(record, static_cast<std::size_t>(channel));
}

std::vector<std::string> wire_row(const build::Lead& lead, quantity::Temperature warm,
                                  double lasting_a, double highest_a) {
  const part::Ampacity ampacity = lead.wire.ampacity(warm);
  return {lead.name,
          show_terminal(lead.from),
          show_terminal(lead.to),
          quantity::show(lead.wire.size),
          quantity::show(lead.wire.length),
          lead.wire.colour.empty() ? "\u2013" : part::colour_in_words(lead.wire.colour),
          quantity::show(lead.wire.resistance(quantity::Temperature::of_celsius(20.0))),
          show_current(lasting_a),
          show_current(highest_a),
          quantity::show(ampacity.current)};
}

void write_joins(const build::Build& build, Page& page) {
  std::vector<std::string> joins;
  for (const build::Join& join : build.joins) {
    std::string text = join.name + ":";
    for (const build::TerminalName& terminal : join.terminals)
      text += " " + show_terminal(terminal);
    joins.push_back(std::move(text));
  }
  if (joins.empty()) return;
  page.heading("Points where terminals meet without a wire");
  page.list(joins);
}

}  // namespace

void write_values(const ReportMatter& matter, Page& page) {
  const build::Build copy = matter.build.copy();
  page.begin_section("values", "Every value used");
  page.paragraph(
      "Where a value comes from: measured on this very part, its datasheet, typical of its kind, "
      "or "
      "assumed. A default is one the sheet does not state; its source says what it rests on.");
  Table table{.caption = "Values of all parts.",
              .columns = {{"Value"}, {"What it is"}, {"Used"}, {"From"}, {"Source"}},
              .is_dense = true};
  build::Needs needs = matter.build.needs;
  RowGroup& asked = table.groups.emplace_back();
  asked.title = "What is asked for";
  ValueRows(asked).add(needs, "");
  for (auto& row : asked.rows) row[3] = "asked for";
  for (const auto& part : copy.parts) {
    RowGroup& group = table.groups.emplace_back();
    group.title = title_of(*part);
    ValueRows(group).add(*part, "");
  }
  page.table(table);
  page.end_section();
}

void write_wires(const ReportMatter& matter, Page& page) {
  page.begin_section("wires", "The wires");
  const auto extremes = question::extremes_of(matter.prediction.judged());
  const quantity::Temperature warm = matter.build.needs.ambient.high();
  Table table{.caption =
                  "Every lead, with its resistance at 20 degC and both its ends, the current "
                  "it carries for a second or more, the shortest peak in any run, and what "
                  "it may carry for good at " +
                  quantity::show(warm) + ".",
              .columns = {{"Lead"},
                          {"From"},
                          {"To"},
                          {"Size", true},
                          {"Length", true},
                          {"Colour"},
                          {"Resistance", true},
                          {"Carries", true},
                          {"Peak", true},
                          {"May carry", true}}};
  RowGroup& group = table.groups.emplace_back();
  for (const build::Lead& lead : matter.build.leads) {
    group.rows.push_back(wire_row(lead, warm,
                                  lasting_current(matter.prediction.usual.record, lead.name),
                                  highest_current(extremes, lead.name)));
  }
  page.table(table);
  write_joins(matter.build, page);
  page.end_section();
}

}  // namespace tideover::papers
