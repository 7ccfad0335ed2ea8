/// How a kind of thing describes its values, so that one description serves the reader of the
/// sheet, the JSON Schema, the shelf, variations, the report and the page.
///
///     const Description& Fuse::describe() {
///       static const Description description =
///           Describe<Fuse>("fuse", "Opens for good when too much current has flowed too long.")
///               .value("rated", &Fuse::rated, {0.01_A, 100_A}, "rated current").required()
///               .value("resistance", &Fuse::resistance, {0_Ohm, 10_Ohm}, "cold resistance",
///                      "typical of 5x20 mm fuses, from memory")
///               .choice("style", &Fuse::style, fuse_styles, "standard whose gates it keeps")
///               .done();
///       return description;
///     }
///
/// A default is what a default-constructed object holds; the last argument says where it is from.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "part/field.hpp"

namespace tideover::part {

struct Description {
  std::string name;
  std::string means;
  std::vector<Field> fields;
  [[nodiscard]] const Field* find(std::string_view key) const;
};

template <class Q>
struct Bounds {
  Q lowest;
  Q highest;
};

/// Builds a Description for T field by field; see the top of this file.
template <class T>
class Describe {
 public:
  Describe(std::string name, std::string means) : made_{std::move(name), std::move(means), {}} {}

  template <class Q, class Owner>
  Describe& value(std::string key, quantity::Value<Q> Owner::*member, Bounds<Q> bounds,
                  std::string means, std::string default_source = {}) {
    return amount<Q>(std::move(key), member, bounds, std::move(means), std::move(default_source),
                     false);
  }
  template <class Q, class Owner>
  Describe& range(std::string key, quantity::Span<Q> Owner::*member, Bounds<Q> bounds,
                  std::string means, std::string default_source = {}) {
    return amount<Q>(std::move(key), member, bounds, std::move(means), std::move(default_source),
                     true);
  }
  template <class Owner>
  Describe& count(std::string key, int Owner::*member, int lowest, int highest, std::string means,
                  std::string default_source = {}) {
    return add(
        std::move(key), std::move(means), std::move(default_source),
        CountField{lowest, highest, [member](Described& d) -> int& { return cast(d).*member; }});
  }
  /// `Choice` is an enum whose values count from 0 in the order of `words`.
  template <class Choice, class Owner>
  Describe& choice(std::string key, Choice Owner::*member, std::vector<std::string_view> words,
                   std::string means, std::string default_source = {}) {
    return add(std::move(key), std::move(means), std::move(default_source),
               ChoiceField{std::move(words),
                           [member](Described& d, std::size_t index) {
                             cast(d).*member = static_cast<Choice>(index);
                           },
                           [member](const Described& d) {
                             return static_cast<std::size_t>(dynamic_cast<const T&>(d).*member);
                           }});
  }
  template <class Owner>
  Describe& flag(std::string key, bool Owner::*member, std::string means,
                 std::string default_source = {}) {
    return add(std::move(key), std::move(means), std::move(default_source),
               FlagField{[member](Described& d) -> bool& { return cast(d).*member; }});
  }
  template <class Owner>
  Describe& text(std::string key, std::string Owner::*member, std::string means) {
    return add(std::move(key), std::move(means), {},
               TextField{[member](Described& d) -> std::string& { return cast(d).*member; }});
  }
  /// The name of another part of the build.
  template <class Owner>
  Describe& part_name(std::string key, std::string Owner::*member, std::string means) {
    return add(std::move(key), std::move(means), {},
               TextField{[member](Described& d) -> std::string& { return cast(d).*member; }, true});
  }
  template <class Inner, class Owner>
  Describe& record(std::string key, Inner Owner::*member, std::string shelf, std::string means) {
    return add(std::move(key), std::move(means), {},
               RecordField{&Inner::describe(), std::move(shelf),
                           [member](Described& d) -> Described& { return cast(d).*member; }});
  }
  template <class Inner, class Owner>
  Describe& records(std::string key, std::vector<Inner> Owner::*member, std::size_t least,
                    std::size_t most, std::string means) {
    return add(std::move(key), std::move(means), {},
               RecordsField{&Inner::describe(), least, most,
                            [member](Described& d) -> Described& {
                              return (cast(d).*member).emplace_back();
                            },
                            [member](Described& d) {
                              std::vector<Described*> all;
                              for (Inner& inner : cast(d).*member) all.push_back(&inner);
                              return all;
                            }});
  }
  /// The field just added must be given.
  Describe& required() {
    made_.fields.back().is_required = true;
    return *this;
  }
  /// All fields of another description come in here (those all parts have, for one).
  Describe& with(const std::vector<Field>& fields) {
    made_.fields.insert(made_.fields.end(), fields.begin(), fields.end());
    return *this;
  }
  [[nodiscard]] Description done() const { return made_; }

 private:
  static T& cast(Described& d) { return dynamic_cast<T&>(d); }

  template <class Q, class Member>
  Describe& amount(std::string key, Member member, Bounds<Q> bounds, std::string means,
                   std::string default_source, bool is_range) {
    return add(
        std::move(key), std::move(means), std::move(default_source),
        AmountField{Q::dimension, std::is_same_v<Q, quantity::Temperature>, is_range,
                    bounds.lowest.si(), bounds.highest.si(),
                    [member](Described& d) -> quantity::Amount& { return cast(d).*member; }});
  }
  template <class What>
  Describe& add(std::string key, std::string means, std::string default_source, What what) {
    made_.fields.push_back(
        {std::move(key), std::move(means), std::move(default_source), false, std::move(what)});
    return *this;
  }

  Description made_;
};

}  // namespace tideover::part
