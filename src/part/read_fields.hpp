/// From a table of a sheet or of the shelf to the values of something described.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/toml.hpp"
#include "part/description.hpp"
#include "quantity/measure.hpp"

namespace tideover::part {

/// Rows of part data by the name of their list ("cell") and their own ("nmc-21700-4000").
class Stock {
 public:
  virtual ~Stock() = default;
  /// A table with `source`, perhaps `origin`, and values; null if there is no such row.
  [[nodiscard]] virtual const base::TomlNode* find_row(std::string_view list,
                                                       std::string_view name) const = 0;
  [[nodiscard]] virtual std::vector<std::string> names(std::string_view list) const = 0;
};

/// What reading found, in two lots: `form` is what a schema can tell too (keys, types, words,
/// units, counts), `sense` what it cannot (sizes, names that must exist, wiring).
struct Findings {
  base::Problems form;
  base::Problems sense;
};

/// Keys every row of the shelf has beside its values.
inline constexpr std::string_view source_key = "source";
inline constexpr std::string_view origin_key = "origin";
/// Which meter a value was read with: values read with one meter are off together.
inline constexpr std::string_view meter_key = "meter";
/// `from = "shelf:name"` takes a row; what else the table says goes before it.
inline constexpr std::string_view from_key = "from";
inline constexpr std::string_view shelf_prefix = "shelf:";

/// More problems of one text than this are not told: something else is wrong with it.
inline constexpr std::size_t most_findings = 500;

/// The words of quantity::Origin, in its order.
[[nodiscard]] const std::vector<std::string>& origin_words();

class FieldReader {
 public:
  /// All three outlive the reader. `is_whole`: nothing of the text was left out, so that a missing
  /// key may be told.
  FieldReader(const Stock& stock, Findings& findings, bool is_whole)
      : stock_(stock), findings_(findings), is_whole_(is_whole) {}

  /// Reads the values of `table` into `into`, on top of those of the row that `from` names in the
  /// list `shelf` (empty: no `from`). Keys in `others` are the caller's business. False if
  /// anything was wrong.
  bool read(const base::TomlNode& table, Described& into, const std::string& shelf,
            const std::vector<std::string>& others = {});

  /// Reads a row of the shelf; its `source` and `origin` go to every value that states none. Lists
  /// that `over` states too are left to it.
  bool read_row(const base::TomlNode& row, Described& into, const base::TomlNode* over = nullptr);

  /// Reads one amount, written as text or as `{ value = "...", origin = "...", source = "...",
  /// meter = "..." }`.
  /// `key` is the word it stands under. False, and `into` as it was, if anything was wrong.
  bool read_amount(const base::TomlNode& node, const std::string& key, const AmountField& field,
                   quantity::Amount& into);

  /// Tells that `key` is none of `valid`. `owner` reads like "a fuse" or "[needs]".
  void tell_unknown_key(const base::TomlEntry& entry, const std::string& owner,
                        const std::vector<std::string>& valid);
  /// The text of a node, or null after telling that `expected` should stand there.
  const std::string* read_text(const base::TomlNode& node, const std::string& expected);
  /// The index of a node's text in `words`, or -1 after telling.
  int read_word(const base::TomlNode& node, const std::vector<std::string>& words);
  /// False, after telling, if the node is no table.
  bool expect_table(const base::TomlNode& node, const std::string& what);
  void tell_form(base::Place place, std::string text, std::string remedy = {});
  void tell_sense(base::Place place, std::string text, std::string remedy = {});
  void tell_missing(base::Place place, const std::string& key, const std::string& remedy);

  /// No more is told: what would only make a message better need not be looked for.
  [[nodiscard]] bool is_full() const { return count() > most_findings; }
  [[nodiscard]] const Stock& stock() const { return stock_; }
  [[nodiscard]] bool is_whole() const { return is_whole_; }

 private:
  /// Room for one more problem; the last one says that there are more.
  bool has_room();
  /// How many problems there are; more after a step means that the step failed.
  [[nodiscard]] std::size_t count() const { return findings_.form.size() + findings_.sense.size(); }
  const base::TomlNode* find_from(const base::TomlNode& node, const std::string& shelf);
  void read_entries(const base::TomlNode& table, Described& into,
                    const std::vector<std::string>& others);
  void read_field(const base::TomlNode& node, const Field& field, Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const AmountField& what,
                 Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const CountField& what,
                 Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const ChoiceField& what,
                 Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const FlagField& what,
                 Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const TextField& what,
                 Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const RecordField& what,
                 Described& into);
  void read_what(const base::TomlNode& node, const Field& field, const RecordsField& what,
                 Described& into);
  void check_size(const base::TomlNode& node, const std::string& key, const AmountField& field,
                  const quantity::Amount& amount);
  bool read_amount_text(const base::TomlNode& node, const AmountField& field,
                        quantity::Amount& into);

  const Stock& stock_;
  Findings& findings_;
  bool is_whole_;
  quantity::Origin origin_ = quantity::Origin::Assumed;
  std::string source_;
};

/// "a fuse", "an adapter", "needs".
[[nodiscard]] std::string with_article(const std::string& word);

/// The measure and form that a field's text is read with; a schema asks for the same.
[[nodiscard]] quantity::Measure measure_of_field(const AmountField& field);

/// A ratio that may exceed 100 % (an exponent, a factor) may also be written as a bare number.
[[nodiscard]] bool is_factor(const AmountField& field);

/// Most letters of a name or a note.
inline constexpr std::size_t longest_text = 2000;

}  // namespace tideover::part
