#include <fmt/format.h>

#include "papers/report_sections.hpp"
#include "papers/source_notes.hpp"
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

/// Told in the title of the part's block.
bool is_in_title(const Field& field) { return field.key == "where" || field.key == "note"; }

/// What a list holds, an item's values behind one another: a table of rest voltages has twenty.
std::string in_one_line(const std::vector<Described*>& items);

/// Sorts the values of a thing into what is stated and what its kind supposes.
class ValueBlock {
 public:
  ValueBlock(PartValues& into, SourceNotes& notes) : into_(into), notes_(notes) {}

  void add(Described& thing, const std::string& prefix) {
    for (const Field& field : thing.description().fields) {
      if (!is_in_title(field)) add_field(thing, field, prefix);
    }
  }

 private:
  void state(const std::string& key, std::string value, std::string_view origin,
             const std::string& source) {
    into_.stated.push_back({key, std::move(value), std::string(origin), notes_.number(source)});
  }
  void suppose(const std::string& key, std::string value, const std::string& source) {
    into_.supposed.push_back({key, std::move(value), "", notes_.number(source)});
  }

  void add_amount(const std::string& key, const Field& field, const AmountField& what,
                  const Amount& amount) {
    if (amount.given) {
      state(key, show_field(what, amount), origin_in_words(amount.origin), amount.source);
    } else if (amount.nominal_si != 0.0 || amount.high_si != 0.0) {
      suppose(key, show_field(what, amount), field.default_source);
    } else if (!field.default_source.empty()) {
      // Zero stands for what the default's words say, or for a thing that this build has not.
      suppose(key, "", field.default_source);
    }
  }

  void add_field(Described& thing, const Field& field, const std::string& prefix) {
    const std::string key = prefix + field.key;
    if (const auto* const amount = std::get_if<AmountField>(&field.what)) {
      add_amount(key, field, *amount, amount->amount(thing));
    } else if (const auto* const count = std::get_if<part::CountField>(&field.what)) {
      state(key, std::to_string(count->count(thing)), "", {});
    } else if (const auto* const choice = std::get_if<part::ChoiceField>(&field.what)) {
      state(key, std::string(choice->words[choice->chosen(thing)]), "", {});
    } else if (const auto* const flag = std::get_if<part::FlagField>(&field.what)) {
      state(key, flag->flag(thing) ? "yes" : "no", "", {});
    } else if (const auto* const text = std::get_if<part::TextField>(&field.what)) {
      if (!text->text(thing).empty()) state(key, text->text(thing), "", {});
    } else if (const auto* const record = std::get_if<part::RecordField>(&field.what)) {
      add(record->record(thing), key + ".");
    } else if (const auto* const records = std::get_if<part::RecordsField>(&field.what)) {
      const std::vector<Described*> items = records->all(thing);
      if (!items.empty()) state(key, in_one_line(items), "", {});
    }
  }

  PartValues& into_;
  SourceNotes& notes_;
};

std::string in_one_line(const std::vector<Described*>& items) {
  std::string text;
  for (Described* item : items) {
    PartValues values;
    SourceNotes unused;
    ValueBlock(values, unused).add(*item, "");
    if (!text.empty()) text += "; ";
    std::string one;
    for (const ShownValue& value : values.stated) one += (one.empty() ? "" : " ") + value.value;
    text += one;
  }
  return text;
}

/// Name, kind, whereabouts and note of a part: not repeated among its values.
std::string title_of(const part::Part& part) {
  const char* const where = part.where == part::Whereabouts::Outside ? ", outside the box" : "";
  return fmt::format("{} \u2013 {}{}", part.name, part.description().name, where);
}

}  // namespace

void write_values(const ReportMatter& matter, Page& page) {
  const build::Build copy = matter.build.copy();
  page.begin_section("values", "Every value used");
  page.paragraph(
      "What the sheet and the shelf state, with where it comes from: measured on this very part, "
      "its datasheet, typical of its kind, or assumed. Below it in small print what is taken as "
      "typical because nobody states it; `tideover kinds` says what each key means. Numbers refer "
      "to the sources at the end of the section.");
  SourceNotes notes;
  page.begin_columns();
  build::Needs needs = matter.build.needs;
  PartValues asked{.title = "What is asked for"};
  ValueBlock(asked, notes).add(needs, "");
  for (ShownValue& value : asked.stated) value.origin.clear();
  page.values(asked);
  for (const auto& part : copy.parts) {
    PartValues block{.title = title_of(*part), .note = part->note, .remarks = part->remarks()};
    ValueBlock(block, notes).add(*part, "");
    page.values(block);
  }
  page.end_columns();
  page.sources(notes.all());
  page.end_section();
}

}  // namespace tideover::papers
