#include "quantity/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "quantity/text_lexer.hpp"
#include "quantity/unit_table.hpp"

namespace tideover::quantity {
namespace {

constexpr Measure temperature = measure_of<Temperature>();
constexpr Measure difference = measure_of<Kelvin>();
constexpr Measure ratio = measure_of<Ratio>();

std::string quoted(std::string_view text) { return "`" + std::string(text) + "`"; }

std::string expectation(const Measure& measure, Form form) {
  const std::string_view example =
      form == Form::Range ? range_example_of(measure) : example_of(measure);
  std::string words(in_words(measure));
  if (form == Form::Range) words = "a range of " + words.substr(words.find(' ') + 1);
  if (example.empty()) return "expected " + words;
  return "expected " + words + " such as " + quoted(example);
}

/// The units between which a bare number leaves the choice: 0.5 may be amperes or milliamperes, and
/// a thousandfold error is not to be advised. Elsewhere the example's own.
std::vector<std::string_view> usual_units(const Measure& measure) {
  if (measure == measure_of<Ampere>()) return {"A", "mA"};
  if (measure == measure_of<Metre>()) return {"mm", "m"};
  if (measure == measure_of<Ohm>()) return {"Ohm", "mOhm"};
  if (measure == measure_of<Farad>()) return {"uF", "F"};
  if (measure == measure_of<Coulomb>()) return {"Ah", "mAh"};
  if (measure == measure_of<Second>()) return {"s", "min", "h"};
  const std::string_view example = example_of(measure);
  const std::size_t space = example.rfind(' ');
  if (space == std::string_view::npos) return {};
  return {example.substr(space + 1)};
}

/// Slips that the nearest spelling would not mend.
std::string_view known_slip(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 16> slips{{
      {"C", "Write degC for a temperature, Ah or As for a charge, A for a C-rate's current."},
      {"F", "Write degF for a temperature, uF or mF for a capacitance."},
      {"Volt", "Write V."},
      {"Amp", "Write A."},
      {"Amps", "Write A."},
      {"Watt", "Write W."},
      {"k", "Write kOhm."},
      {"R", "Write Ohm."},
      {"M", "Write MOhm."},
      {"sec", "Write s."},
      {"hr", "Write h."},
      {"hrs", "Write h."},
      {"hours", "Write h."},
      {"mins", "Write min."},
      {"sqmm", "Write mm2."},
      {"VA", "Write W: a direct-current supply has no reactive power."},
  }};
  for (const auto& [slip, advice] : slips) {
    if (slip == word) return advice;
  }
  return "";
}

/// "nan", "-inf", "infinity": words that some programs write for numbers.
bool is_not_finite(std::string_view text) {
  const std::string lower = base::lower_case(text.substr(0, 4));
  return lower.find("nan") < 2 || lower.find("inf") < 2;
}

class Reader {
 public:
  Reader(std::string_view text, const Measure& expected, Form form)
      : lexer_(text), expected_(expected), form_(form) {}

  base::Result<Amount> run() {
    const auto amount = read_whole();
    if (fault_) return *std::move(fault_);
    return *amount;
  }

 private:
  struct Tolerance {
    double minus = 0.0;
    double plus = 0.0;
  };

  std::nullopt_t fail(const Token& at, std::string text, std::string remedy) {
    if (!fault_) {
      base::Problem problem{{}, std::move(text), std::move(remedy)};
      problem.place.line = 1;
      problem.place.column = lexer_.column(at);
      problem.place.length = std::max(1, static_cast<int>(base::count_code_points(at.text)));
      problem.place.excerpt = std::string(lexer_.text());
      fault_ = std::move(problem);
    }
    return std::nullopt;
  }

  std::optional<Amount> read_whole() {
    const auto nominal = read_quantity();
    if (!nominal) return std::nullopt;
    auto amount = read_ends(*nominal);
    if (!amount) return std::nullopt;
    if (!lexer_.at_end()) {
      return fail(
          lexer_.rest(), "cannot make sense of " + quoted(lexer_.rest().text),
          "A tolerance is written `+/- 5 %`, a range " + quoted(range_example_of(expected_)) + ".");
    }
    return amount;
  }

  std::optional<Amount> read_ends(double nominal) {
    if (lexer_.at_end()) return ends(lexer_.whole(), nominal, nominal, nominal);
    if (form_ == Form::Exact) {
      return fail(lexer_.rest(), expectation(expected_, form_) + " without a tolerance",
                  "Leave " + quoted(lexer_.rest().text) + " out.");
    }
    if (lexer_.take_word("to")) return read_upper_end(nominal);
    const Token at = lexer_.rest();
    const auto tolerance = read_tolerance(nominal);
    if (!tolerance) return std::nullopt;
    return ends(at, nominal, nominal - tolerance->minus, nominal + tolerance->plus);
  }

  std::optional<Amount> read_upper_end(double low) {
    const Token at = lexer_.rest();
    const auto high = read_quantity();
    if (!high) return std::nullopt;
    if (*high < low) {
      return fail(at, "the range runs downwards", "Write the lower end first.");
    }
    return ends(at, low + 0.5 * (*high - low), low, *high);
  }

  std::optional<Amount> ends(const Token& at, double nominal, double low, double high) {
    if (!std::isfinite(nominal) || !std::isfinite(low) || !std::isfinite(high)) {
      return fail(at, "the number is too large", "");
    }
    Amount amount(low, nominal, high);
    amount.given = true;
    return amount;
  }

  // --- quantities --------------------------------------------------------------------------------

  std::optional<double> read_quantity() {
    Token number;
    double size = 0.0;
    auto total = read_term(expected_, number, size);
    if (!total || expected_ != measure_of<Second>()) return total;
    while (lexer_.begins_digit()) {
      const Token at = lexer_.rest();
      double smaller = 0.0;
      const auto term = read_term(expected_, number, smaller);
      if (!term) return std::nullopt;
      if (smaller >= size) {
        return fail(at, "the units of a time must fall: hours, then minutes, then seconds",
                    "Write it as `1 h 30 min`.");
      }
      size = smaller;
      *total += number.text.front() == '-' ? -*term : std::copysign(*term, *total);
    }
    return total;
  }

  /// One number with its unit, in SI. `unit_size` tells how large the unit is.
  std::optional<double> read_term(const Measure& measure, Token& number, double& unit_size) {
    const auto value = read_number(number);
    if (!value) return std::nullopt;
    const Lexer behind_number = lexer_;
    const Token word = lexer_.take_unit();
    const bool is_bare = word.text.empty() || word.text == "to";
    if (is_bare && measure.is_factor) {
      lexer_ = behind_number;
      return value;
    }
    if (is_bare) {
      return fail(
          number,
          std::string(number.text) + " has no unit; " + expectation(measure, form_for_message()),
          bare_number_advice(number, measure));
    }
    if (word.text == gauge_word) return read_gauge(number, *value, word, measure);
    const Unit* unit = find_unit(word.text);
    if (unit == nullptr) return fail_unit(word, measure);
    if (unit->measure != measure) return fail_measure(number, word, *unit, measure);
    unit_size = unit->multiply / unit->divide;
    return scaled(number, *value * unit->multiply / unit->divide + unit->offset);
  }

  [[nodiscard]] Form form_for_message() const {
    return form_ == Form::Range ? Form::Range : Form::Value;
  }

  static std::string bare_number_advice(const Token& number, const Measure& measure) {
    std::vector<std::string> choices;
    for (const std::string_view unit : usual_units(measure)) {
      choices.push_back(std::string(number.text) + " " + std::string(unit));
    }
    return choices.empty() ? "" : "Did you mean " + base::quoted_list(choices, "or") + "?";
  }

  std::optional<double> scaled(const Token& number, double si) {
    if (!std::isfinite(si)) return fail(number, "the number is too large", "");
    return si;
  }

  std::optional<double> read_number(Token& number) {
    number = lexer_.take_number();
    if (number.text.empty()) {
      const Token at = lexer_.rest();
      const std::string found = at.text.empty() ? "nothing" : quoted(at.text);
      return fail(at, expectation(expected_, form_for_message()) + ", found " + found,
                  is_not_finite(at.text) ? "Write a finite number." : "");
    }
    if (lexer_.begins_comma_digit()) {
      return fail(Token{lexer_.rest().text.substr(0, 1)}, "a comma stands in the number",
                  "Write a decimal point and no thousands separator: `24.1`, `1000`.");
    }
    return value_of(number);
  }

  std::optional<double> value_of(const Token& number) {
    double value = 0.0;
    std::string text(number.text);
    constexpr std::string_view minus = "\u2212";
    if (text.starts_with(minus)) text.replace(0, minus.size(), "-");
    const char* first = text.data() + (text.front() == '+' ? 1 : 0);
    const auto end = std::from_chars(first, text.data() + text.size(), value);
    if (end.ec == std::errc::result_out_of_range) {
      return fail(number, "the number is too large or too small to reckon with", "");
    }
    return value;
  }

  std::optional<double> read_gauge(const Token& number, double value, const Token& word,
                                   const Measure& measure) {
    if (measure != measure_of<SquareMetre>()) {
      return fail(number.to(word),
                  expectation(measure, form_for_message()) + ", found " +
                      std::string(number.to(word).text) + ": a wire size",
                  "");
    }
    if (value < 0.0 || value > 40.0 || value != std::floor(value)) {
      return fail(number, "a wire gauge is a whole number from 0 to 40", "");
    }
    return gauge_area_m2(static_cast<int>(value));
  }

  std::nullopt_t fail_unit(const Token& word, const Measure& measure) {
    std::string remedy(known_slip(word.text));
    if (remedy.empty()) {
      if (const auto near = nearest_unit(word.text, measure)) {
        remedy = "Did you mean " + quoted(*near) + "?";
      } else {
        remedy = "Units of " + std::string(in_words(measure)) + ": " + unit_list(measure) + ".";
      }
    }
    return fail(
        word,
        "there is no unit " + quoted(word.text) + "; " + expectation(measure, form_for_message()),
        std::move(remedy));
  }

  static std::string unit_list(const Measure& measure) {
    std::vector<std::string> words;
    for (const Unit& unit : unit_table()) {
      if (unit.measure == measure) words.emplace_back(unit.word);
    }
    return base::list_in_words(words);
  }

  std::nullopt_t fail_measure(const Token& number, const Token& word, const Unit& unit,
                              const Measure& measure) {
    std::string remedy;
    if (measure == difference && unit.measure == temperature) {
      remedy = "Write a difference in K: " + quoted(std::string(number.text) + " K") + ".";
    } else if (measure == temperature && unit.measure == difference) {
      remedy = "Write a temperature in degC.";
    }
    return fail(number.to(word),
                expectation(measure, form_for_message()) + ", found " +
                    std::string(number.to(word).text) + ": " + std::string(in_words(unit.measure)),
                std::move(remedy));
  }

  // --- tolerances --------------------------------------------------------------------------------

  std::optional<Tolerance> read_tolerance(double nominal) {
    if (lexer_.take_plus_minus()) {
      const auto amount = read_tolerance_amount(nominal);
      if (!amount) return std::nullopt;
      return Tolerance{*amount, *amount};
    }
    const Token at = lexer_.rest();
    const char first = lexer_.take_sign();
    if (first == '\0') {
      return fail(
          at, "cannot make sense of " + quoted(at.text),
          "A tolerance is written `+/- 5 %`, a range " + quoted(range_example_of(expected_)) + ".");
    }
    const auto one = read_tolerance_amount(nominal);
    if (!one) return std::nullopt;
    lexer_.take_slash();
    const char second = lexer_.take_sign();
    if (second == '\0' || second == first) {
      return fail(at, "a tolerance with one sign needs the other side too",
                  "Write `+/- 5 %` or `+5 % -10 %`; a range is written " +
                      quoted(range_example_of(expected_)) + ".");
    }
    const auto other = read_tolerance_amount(nominal);
    if (!other) return std::nullopt;
    return first == '+' ? Tolerance{*other, *one} : Tolerance{*one, *other};
  }

  /// The absolute size of one side of a tolerance, in SI, zero or more.
  std::optional<double> read_tolerance_amount(double nominal) {
    const Token sign = lexer_.rest();
    if (lexer_.take_sign() != '\0') {
      return fail(sign, "a sign stands where the size of the tolerance was expected", "");
    }
    Token number;
    const auto value = read_number(number);
    if (!value) return std::nullopt;
    const Token word = lexer_.take_unit();
    if (word.text.empty() && expected_.is_factor) return value;
    if (word.text.empty()) {
      return fail(number, "the tolerance " + std::string(number.text) + " has no unit",
                  tolerance_advice());
    }
    const Unit* unit = find_unit(word.text);
    const Measure absolute = expected_ == temperature ? difference : expected_;
    if (unit == nullptr) return fail_unit(word, absolute);
    const bool is_share = unit->measure == ratio && (expected_ != ratio || expected_.is_factor);
    const bool is_kind = unit->measure == absolute || unit->measure == expected_;
    if ((is_share && expected_ == temperature) || (!is_share && !is_kind)) {
      return fail(number.to(word),
                  "expected a tolerance, found " + std::string(number.to(word).text) + ": " +
                      std::string(in_words(unit->measure)),
                  tolerance_advice());
    }
    const double size = *value * unit->multiply / unit->divide;
    return scaled(number, is_share ? size * std::abs(nominal) : size);
  }

  [[nodiscard]] std::string tolerance_advice() const {
    if (expected_ == temperature) return "Write a tolerance of a temperature in K: `+/- 2 K`.";
    return "Write `+/- 5 %`, or a tolerance in the value's own unit.";
  }

  Lexer lexer_;
  Measure expected_;
  Form form_;
  std::optional<base::Problem> fault_;
};

}  // namespace

base::Result<Amount> read_amount(std::string_view text, const Measure& expected, Form form) {
  return Reader(text, expected, form).run();
}

}  // namespace tideover::quantity
