#include "quantity/choices.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "quantity/text.hpp"
#include "quantity/text_lexer.hpp"
#include "quantity/unit_table.hpp"

namespace tideover::quantity {

namespace {

constexpr double wanted = 40.0;
constexpr double minute_s = 60.0;

/// A text in its three pieces; `tolerance` with the blank before it.
struct Pieces {
  double number = 0.0;
  std::string unit;
  std::string tolerance;
};

std::size_t tolerance_begins(std::string_view text) {
  for (std::size_t k = 1; k < text.size(); ++k) {
    const bool is_plus_or_minus = text[k] == '+' || text.substr(k).starts_with("\u00b1");
    const bool is_lower_side = text[k] == '-' && text[k - 1] == ' ';
    if (!is_plus_or_minus && !is_lower_side) continue;
    const bool is_exponent = k > 1 && (text[k - 1] == 'e' || text[k - 1] == 'E') &&
                             text[k - 2] >= '0' && text[k - 2] <= '9';
    if (!is_exponent) return text[k - 1] == ' ' ? k - 1 : k;
  }
  return text.size();
}

std::optional<Pieces> pieces_of(std::string_view text, const Measure& measure) {
  const std::size_t end = tolerance_begins(text);
  const std::string_view value = text.substr(0, end);
  if (value.find(" to ") != std::string_view::npos) return std::nullopt;
  const auto amount = read_amount(text, measure, Form::Value);
  if (!amount) return std::nullopt;
  Pieces pieces;
  pieces.tolerance = std::string(text.substr(end));
  Lexer lexer(value);
  lexer.take_number();
  const std::string_view word = lexer.take_unit().text;
  if (!lexer.at_end()) return std::nullopt;
  const double si = amount.value().nominal_si;
  if (word.empty()) {
    pieces.number = si;
    return pieces;
  }
  const Unit* const unit = find_unit(word);
  if (unit == nullptr) return std::nullopt;
  pieces.unit = " " + std::string(word);
  pieces.number = (si - unit->offset) / unit->multiply * unit->divide;
  return pieces;
}

/// The step of 1, 2 or 5 of some decade that divides `width` best.
double round_step(double width) {
  const double ideal = width / wanted;
  const double decade = std::pow(10.0, std::floor(std::log10(ideal)));
  double best = decade;
  for (const double step : {2.0 * decade, 5.0 * decade, 10.0 * decade}) {
    if (std::abs(std::log(step / ideal)) < std::abs(std::log(best / ideal))) best = step;
  }
  return best;
}

/// What is said of hours goes in minutes.
double round_time_step(double width_s) {
  constexpr std::array steps{1.0,      2.0,      5.0,       10.0,      15.0,      30.0,
                             60.0,     120.0,    300.0,     600.0,     900.0,     1800.0,
                             3600.0,   7200.0,   21600.0,   43200.0,   86400.0,   172800.0,
                             432000.0, 864000.0, 2592000.0, 7776000.0, 31557600.0};
  const double ideal_s = width_s / wanted;
  return *std::ranges::min_element(
      steps, {}, [&](double step_s) { return std::abs(std::log(step_s / ideal_s)); });
}

int decimals_of(double step) {
  return std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
}

struct Candidate {
  double si = 0.0;
  std::string text;
};

std::string fixed(double number, int decimals) {
  std::string text = fmt::format("{:.{}f}", number, decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::vector<std::string> in_steps(const Pieces& pieces, double low, double high, double step) {
  std::vector<std::string> texts;
  const double first = std::ceil(low / step - 1e-9);
  const double last = std::floor(high / step + 1e-9);
  for (double count = first; count <= last; count += 1.0) {
    texts.push_back(fixed(count * step, decimals_of(step)) + pieces.unit + pieces.tolerance);
  }
  return texts;
}

std::vector<std::string> times_around(const Pieces& pieces, double si) {
  std::vector<std::string> texts;
  const double step_s = round_time_step(1.5 * si);
  for (double t_s = std::ceil(0.5 * si / step_s) * step_s; t_s <= 2.0 * si; t_s += step_s) {
    const Measure time = measure_of<Second>();
    std::string text = show_si(t_s, time, 4);
    const auto read = read_amount(text, time, Form::Exact);
    if (!read || std::abs(read.value().nominal_si - t_s) > 1e-9 * t_s) text = exact_text(t_s, time);
    texts.push_back(text + pieces.tolerance);
  }
  return texts;
}

std::vector<std::string> texts_around(const Pieces& pieces, double si, const Measure& measure) {
  constexpr double to_either_side_k = 20.0;
  if (measure.is_point) {
    return in_steps(pieces, pieces.number - to_either_side_k, pieces.number + to_either_side_k,
                    1.0);
  }
  if (pieces.unit.ends_with(gauge_word)) {
    const double gauge = std::round(pieces.number);
    return in_steps(pieces, gauge - 10.0, gauge + 10.0, 1.0);
  }
  if (measure == measure_of<Second>() && si >= minute_s) return times_around(pieces, si);
  const auto [low, high] = std::minmax({0.5 * pieces.number, 2.0 * pieces.number});
  return in_steps(pieces, low, high, round_step(high - low));
}

/// In rising order, each value once, `text` among them.
Choices sorted(std::string_view text, double si, const std::vector<std::string>& texts,
               const Measure& measure, double lowest_si, double highest_si) {
  std::vector<Candidate> all;
  all.reserve(texts.size());
  for (const std::string& one : texts) {
    const auto read = read_amount(one, measure, Form::Value);
    if (!read) continue;
    const Amount& amount = read.value();
    if (amount.low_si < lowest_si || amount.high_si > highest_si) continue;
    const bool is_the_value = std::abs(amount.nominal_si - si) <= 1e-9 * std::abs(si);
    if (!is_the_value) all.push_back({amount.nominal_si, one});
  }
  all.push_back({si, std::string(text)});
  std::ranges::stable_sort(all, {}, &Candidate::si);
  const auto repeated = std::ranges::unique(all, {}, &Candidate::si);
  all.erase(repeated.begin(), repeated.end());
  Choices choices;
  choices.texts.reserve(all.size());
  for (Candidate& one : all) {
    if (one.si == si) choices.at = choices.texts.size();
    choices.texts.push_back(std::move(one.text));
  }
  return choices;
}

/// Of a wire gauge the number, which the table of units does not have.
std::optional<Pieces> gauge_pieces(std::string_view text) {
  const auto word = text.find(gauge_word);
  if (word == std::string_view::npos || text.find(" to ") != std::string_view::npos) {
    return std::nullopt;
  }
  const auto digits = text.find_first_of("0123456789");
  if (digits == std::string_view::npos || digits > word) return std::nullopt;
  Pieces pieces;
  for (std::size_t k = digits; k < text.size() && text[k] >= '0' && text[k] <= '9'; ++k) {
    pieces.number = 10.0 * pieces.number + (text[k] - '0');
  }
  pieces.unit = " " + std::string(gauge_word);
  return pieces;
}

}  // namespace

Choices choices_around(std::string_view text, const Measure& measure, double lowest_si,
                       double highest_si) {
  const auto amount = read_amount(text, measure, Form::Value);
  if (!amount || (amount.value().nominal_si == 0.0 && !measure.is_point)) return {};
  const double si = amount.value().nominal_si;
  auto pieces = gauge_pieces(text);
  if (!pieces) pieces = pieces_of(text, measure);
  if (!pieces && measure == measure_of<Second>() && text.find(" to ") == std::string_view::npos) {
    pieces = Pieces{.tolerance = std::string(text.substr(tolerance_begins(text)))};
  }
  if (!pieces) return {};
  return sorted(text, si, texts_around(*pieces, si, measure), measure, lowest_si, highest_si);
}

Choices choices_among(std::string_view text, const std::vector<std::string>& made,
                      const Measure& measure) {
  constexpr double reach = 5.0;
  const auto amount = read_amount(text, measure, Form::Value);
  if (!amount || amount.value().nominal_si <= 0.0) return {};
  const double si = amount.value().nominal_si;
  return sorted(text, si, made, measure, si / reach * (1.0 - 1e-9), si * reach * (1.0 + 1e-9));
}

std::string unit_in(std::string_view text, const Measure& measure) {
  auto pieces = gauge_pieces(text);
  if (!pieces) pieces = pieces_of(text, measure);
  return pieces && !pieces->unit.empty() ? pieces->unit.substr(1) : "";
}

std::string tolerance_in(std::string_view text) {
  const std::string_view tolerance = text.substr(tolerance_begins(text));
  return std::string(
      tolerance.substr(std::min(tolerance.find_first_not_of(' '), tolerance.size())));
}

}  // namespace tideover::quantity
