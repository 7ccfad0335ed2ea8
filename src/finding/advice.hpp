/// Words and numbers that the findings of many rules are made of.
#pragma once

#include <cmath>
#include <string>
#include <utility>

#include "finding/finding.hpp"
#include "quantity/show.hpp"

namespace tideover::finding {

/// With enough digits to tell a setting from its limit.
template <class Q>
[[nodiscard]] std::string shown(double si, int digits = 4) {
  return quantity::show(Q::of_si(si), digits);
}

/// The largest multiple of `step` that is not above `most`, as one would write it: "20.88 V".
template <class Q>
[[nodiscard]] std::string rounded_down(Q most, Q step) {
  return shown<Q>(step.si() * std::floor(most.si() / step.si() * (1.0 + 1e-12)), 6);
}
/// The smallest one that is not below `least`.
template <class Q>
[[nodiscard]] std::string rounded_up(Q least, Q step) {
  return shown<Q>(step.si() * std::ceil(least.si() / step.si() * (1.0 - 1e-12)), 6);
}

/// A finding that cannot be judged for lack of the value at `path`, such as "board.over_voltage".
[[nodiscard]] inline Finding not_known(const std::string& part, const std::string& path,
                                       std::string sentence) {
  return {.part = part,
          .answer = Answer::Unknown,
          .sentence = std::move(sentence),
          .advice = path + ": take it from the data sheet, or measure it.",
          .unknown = {path}};
}

/// A finding with figures, margin and answer; words are yet to come.
template <class Q>
[[nodiscard]] Finding measured_against(const std::string& part, double value_si, double limit_si,
                                       Limits limits) {
  const quantity::Measure measure = quantity::measure_of<Q>();
  Finding finding{.part = part,
                  .measured = Figure{value_si, measure},
                  .limit = Figure{limit_si, measure},
                  .margin = margin_of(value_si, limit_si, limits)};
  finding.answer = answer_of(*finding.margin);
  return finding;
}

}  // namespace tideover::finding
