/// A value or the problems that kept it from being made.
#pragma once

#include <utility>
#include <variant>

#include "base/contract.hpp"
#include "base/problem.hpp"

namespace tideover::base {

template <class Value>
class [[nodiscard]] Result {
 public:
  Result(Value value) : held_(std::in_place_index<0>, std::move(value)) {}
  Result(Problem problem) : held_(std::in_place_index<1>, Problems{std::move(problem)}) {}
  Result(Problems problems) : held_(std::in_place_index<1>, std::move(problems)) {
    TIDEOVER_EXPECT(!std::get<1>(held_).empty(), "a failed result names a problem");
  }

  [[nodiscard]] bool has_value() const { return held_.index() == 0; }
  explicit operator bool() const { return has_value(); }

  [[nodiscard]] const Value& value() const& {
    TIDEOVER_EXPECT(has_value(), "value of a failed result");
    return std::get<0>(held_);
  }
  [[nodiscard]] Value&& value() && {
    TIDEOVER_EXPECT(has_value(), "value of a failed result");
    return std::get<0>(std::move(held_));
  }
  [[nodiscard]] const Problems& problems() const {
    TIDEOVER_EXPECT(!has_value(), "problems of a good result");
    return std::get<1>(held_);
  }

 private:
  std::variant<Value, Problems> held_;
};

}  // namespace tideover::base
