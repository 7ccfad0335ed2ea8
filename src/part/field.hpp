/// What may be said about one value of a described thing, by the kind of value it is.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "quantity/value.hpp"

namespace tideover::part {

struct Description;

/// Anything that has described values.
class Described {
 public:
  virtual ~Described() = default;
  [[nodiscard]] virtual const Description& description() const = 0;
};

/// A number with a unit and perhaps a tolerance. `is_range`: `20 V to 28 V` is meant as a range.
struct AmountField {
  quantity::Dimension dimension;
  bool is_temperature_point = false;
  bool is_range = false;
  double lowest_si = 0.0;  ///< physical range, both ends allowed
  double highest_si = 0.0;
  std::function<quantity::Amount&(Described&)> amount;
};
/// A whole number.
struct CountField {
  int lowest = 0;
  int highest = 0;
  std::function<int&(Described&)> count;
};
/// One of several words.
struct ChoiceField {
  std::vector<std::string_view> words;
  std::function<void(Described&, std::size_t)> choose;
  std::function<std::size_t(const Described&)> chosen;
};
struct FlagField {
  std::function<bool&(Described&)> flag;
};
struct TextField {
  std::function<std::string&(Described&)> text;
  bool names_a_part = false;  ///< the name of another part of the build, or nothing
};
/// A table of values of its own; `from = "shelf:name"` in it, or the text "shelf:name" in its
/// place, takes them from the shelf's rows named `shelf`.
struct RecordField {
  const Description* of = nullptr;
  std::string shelf;  ///< empty: not on the shelf
  std::function<Described&(Described&)> record;
};
/// An array of tables, at most `most`.
struct RecordsField {
  const Description* of = nullptr;
  std::size_t least = 0;
  std::size_t most = 0;
  std::function<Described&(Described&)> append;
  std::function<std::vector<Described*>(Described&)> all;
};

struct Field {
  std::string key;
  std::string means;           ///< in words a builder understands
  std::string default_source;  ///< where the default comes from; empty where there is none
  bool is_required = false;
  std::variant<AmountField, CountField, ChoiceField, FlagField, TextField, RecordField,
               RecordsField>
      what;
};

}  // namespace tideover::part
