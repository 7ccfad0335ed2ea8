#include "cell/cell_row.hpp"

#include <cmath>

#include <fmt/format.h>

#include "part/read_fields.hpp"
#include "quantity/show.hpp"
#include "shelf/shelf.hpp"

namespace tideover::cell {

namespace {

constexpr int digits = 5;

double rounded(double si) {
  if (si == 0.0 || !std::isfinite(si)) return si;
  const double scale = std::pow(10.0, digits - 1 - std::floor(std::log10(std::fabs(si))));
  return std::round(si * scale) / scale;
}

std::string amount_text(const part::AmountField& field, const quantity::Amount& amount) {
  const quantity::Measure measure = part::measure_of_field(field);
  if (field.is_range) return quantity::show_range(amount.low_si, amount.high_si, measure, digits);
  quantity::Amount told = amount;
  told.nominal_si = rounded(amount.nominal_si);
  if (amount.low_si == amount.high_si) {
    told.low_si = told.high_si = told.nominal_si;
  } else {
    const double reach =
        rounded(std::max(amount.high_si - amount.nominal_si, amount.nominal_si - amount.low_si));
    told.low_si = told.nominal_si - reach;
    told.high_si = told.nominal_si + reach;
  }
  return quantity::show_amount(told, measure, digits);
}

std::string word_of(quantity::Origin origin) {
  return part::origin_words()[static_cast<std::size_t>(origin)];
}

/// `{ soc = "5 %", voltage = "3.281 V" }` of one point of a curve.
std::string point_text(part::Described& point) {
  std::string text;
  for (const part::Field& field : point.description().fields) {
    const auto* const amount = std::get_if<part::AmountField>(&field.what);
    if (amount == nullptr) continue;
    text += fmt::format("{}{} = \"{}\"", text.empty() ? "" : ", ", field.key,
                        amount_text(*amount, amount->amount(point)));
  }
  return "  { " + text + " },\n";
}

std::string field_text(const part::Field& field, part::Described& cell) {
  if (const auto* const choice = std::get_if<part::ChoiceField>(&field.what)) {
    return fmt::format("{} = \"{}\"\n", field.key, choice->words[choice->chosen(cell)]);
  }
  if (const auto* const records = std::get_if<part::RecordsField>(&field.what)) {
    std::string text = field.key + " = [\n";
    for (part::Described* const point : records->all(cell)) text += point_text(*point);
    return text + "]\n";
  }
  const auto* const amount = std::get_if<part::AmountField>(&field.what);
  if (amount == nullptr) return {};
  const quantity::Amount& value = amount->amount(cell);
  if (!value.given) return {};
  return fmt::format("{} = {{ value = \"{}\", origin = \"{}\" }}\n", field.key,
                     amount_text(*amount, value), word_of(value.origin));
}

}  // namespace

std::string row_text(const FittedCell& fitted, const std::vector<std::string>& files) {
  std::string logs;
  for (const std::string& file : files) logs += (logs.empty() ? "" : ", ") + file;
  std::string text = fmt::format(
      "# A cell fitted to its logs; use it on a sheet as cell = \"shelf:{0}\".\n"
      "# A tolerance is twice the standard error of the fit. What the logs do not tell is the\n"
      "# class's ({1}). Limits of voltage, current and temperature are never fitted: the maker's\n"
      "# sheet of your cell decides.\n\n[{0}]\n"
      "source = \"fitted to {2}; the rest from shelf:{1}\"\norigin = \"typical\"\n",
      fitted.name, fitted.class_name, logs);
  part::Cell cell = fitted.cell;
  std::string curves;
  for (const part::Field& field : cell.description().fields) {
    const bool is_curve = std::holds_alternative<part::RecordsField>(field.what);
    (is_curve ? curves : text) += field_text(field, cell);
  }
  return text + curves;
}

base::Result<CellClass> read_row_text(std::string_view text, const std::string& file) {
  const base::TomlReading reading = base::read_toml(text, file);
  part::Findings findings;
  findings.form = reading.problems;
  if (findings.form.empty() && reading.root.entries.empty()) {
    base::Problem none{
        {}, "there is no cell in this file", "Fit one: tideover cells --fit FILE... --out FILE"};
    none.place.file = file;
    return none;
  }
  CellClass row;
  if (findings.form.empty()) {
    part::FieldReader reader(shelf::built_in_shelf(), findings, reading.is_whole());
    const base::TomlEntry& first = reading.root.entries.front();
    row.name = first.key;
    if (reader.expect_table(first.value, "a cell") && reader.read_row(first.value, row.cell)) {
      for (const std::string& wrong : row.cell.contradictions()) {
        reader.tell_sense(first.key_place(), wrong);
      }
    }
  }
  base::Problems all = std::move(findings.form);
  all.insert(all.end(), findings.sense.begin(), findings.sense.end());
  if (!all.empty()) return all;
  return row;
}

std::vector<CellClass> shelf_classes() {
  const shelf::Shelf& shelf = shelf::built_in_shelf();
  part::Findings findings;
  part::FieldReader reader(shelf, findings, true);
  std::vector<CellClass> classes;
  for (const std::string& name : shelf.names("cell")) {
    CellClass one;
    one.name = name;
    reader.read_row(*shelf.find_row("cell", name), one.cell);
    classes.push_back(std::move(one));
  }
  return classes;
}

}  // namespace tideover::cell
