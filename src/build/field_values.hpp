/// The values of one described thing beside the table of the sheet they stand in.
#pragma once

#include "build/sheet_values.hpp"

namespace tideover::build {

/// Where in the sheet something described stands.
struct Standing {
  const base::TomlNode* table = nullptr;  ///< null: nowhere, all of it is left out or on the shelf
  std::string path;                       ///< "parts.pack"
  std::string key_prefix = {};            ///< "cell."
  std::string shelf = {};                 ///< the list `from` takes rows of; empty: none
  int line = 0;                           ///< used where a value does not stand in the sheet
};

/// An amount that no description holds, such as a stretch's length. Null `node`: left out.
[[nodiscard]] SheetValue plain_amount(const std::string& key, const std::string& path,
                                      const part::AmountField& field, const base::TomlNode* node,
                                      std::string means, int line);
/// One of some words, likewise.
[[nodiscard]] SheetValue plain_word(const std::string& key, const std::string& path,
                                    const std::vector<std::string>& words,
                                    const base::TomlNode* node, std::string means, int line);

class FieldValues {
 public:
  /// Both outlive this object.
  FieldValues(const Build& build, const part::Stock& shelf) : build_(build), shelf_(shelf) {}

  [[nodiscard]] std::vector<SheetValue> of(part::Described& thing, const Standing& at) const;

 private:
  void add(part::Described& thing, const Standing& at, std::vector<SheetValue>& all) const;
  void add_from(const Standing& at, std::vector<SheetValue>& all) const;
  void add_record(part::Described& thing, const part::Field& field, const part::RecordField& record,
                  const Standing& at, std::vector<SheetValue>& all) const;
  [[nodiscard]] SheetValue one(part::Described& thing, const part::Field& field,
                               const Standing& at) const;
  [[nodiscard]] std::vector<std::string> rows(const std::string& list) const;

  const Build& build_;
  const part::Stock& shelf_;
};

}  // namespace tideover::build
