#include "cell/log_judgement.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>
#include <set>

#include "base/text.hpp"
#include "cell/log_counter.hpp"
#include "cell/log_sections.hpp"
#include "cell/log_sign.hpp"
#include "cell/log_state.hpp"
#include "cell/log_time.hpp"
#include "cell/log_unsaid.hpp"

namespace tideover::cell {
namespace {

/// The last reading stands where one is missing; before the first the first.
void fill(std::vector<double>& column_si) {
  const auto first = std::ranges::find_if(column_si, [](double v) { return !std::isnan(v); });
  if (first == column_si.end()) {
    column_si.clear();
    return;
  }
  double last_si = *first;
  for (double& value : column_si) {
    if (std::isnan(value)) value = last_si;
    last_si = value;
  }
}

void scale(std::vector<double>& column_si, double factor) {
  if (factor == 1.0) return;
  for (double& value : column_si) value *= factor;
}

class Judge {
 public:
  Judge(RawLog& raw, const FileFacts& facts, std::vector<Remark>& remarks)
      : raw_(raw), facts_(facts), remarks_(remarks) {}

  [[nodiscard]] Log judge();

 private:
  void take_columns();
  void take_current();
  void take_directions();
  void take_counter();
  void settle_units();
  void settle_counter();
  void settle_sign();
  void say_sections();
  void say(std::string text, int line = 0) {
    remarks_.push_back({raw_.cell, line, std::move(text)});
  }
  [[nodiscard]] CurrentOverTime seen() const { return {log_.time_s, log_.current_a, breaks_at_}; }
  [[nodiscard]] bool is_said(Role role) const {
    const auto index = facts_.text.headings.find(role);
    return index && facts_.text.headings.columns[*index].unit.measured != Measured::Nothing;
  }

  RawLog& raw_;
  const FileFacts& facts_;
  std::vector<Remark>& remarks_;
  Log log_;
  std::vector<Break> breaks_;
  std::vector<std::size_t> breaks_at_;
  int sign_ = 0;  ///< of the file's positive current, 1 if it charges; 0 if not yet known
  std::string sign_why_;
  bool counter_has_sign_ = false;  ///< charge and discharge are counted in separate columns
};

void Judge::take_columns() {
  log_.cell = raw_.cell.empty() ? std::filesystem::path(facts_.file).stem().string() : raw_.cell;
  log_.file = facts_.file;
  LogTime time = take_time(raw_, facts_.rows);
  log_.time_s = std::move(time.time_s);
  log_.clock_of_zero_s = time.clock_of_zero_s;
  if (time.midnights > 0)
    say("the clock passed midnight " + std::to_string(time.midnights) + " times");
  log_.voltage_v = std::move(raw_.of(Role::Voltage));
  log_.temperature_c = std::move(raw_.of(Role::Temperature));
  log_.ambient_c = std::move(raw_.of(Role::Ambient));
  fill(log_.temperature_c);
  fill(log_.ambient_c);
  breaks_ = find_breaks(raw_, log_.time_s, facts_.rows.words);
  breaks_at_.reserve(breaks_.size());
  for (const Break& b : breaks_) breaks_at_.push_back(b.sample);
}

void Judge::take_current() {
  log_.current_a = std::move(raw_.of(Role::Current));
  fill(log_.current_a);
  const auto column = facts_.text.headings.find(Role::Current);
  if (column && facts_.text.headings.columns[*column].is_mean)
    log_.current_between = Between::Before;
  std::vector<double> in = std::move(raw_.of(Role::ChargeCurrent));
  std::vector<double> out = std::move(raw_.of(Role::DischargeCurrent));
  if (!log_.current_a.empty()) return;
  if (in.empty() && out.empty()) {
    log_.current_a.assign(log_.time_s.size(), 0.0);
    say("no column of current: the cell is taken to rest");
    sign_ = 1;
    return;
  }
  const std::size_t size = std::max(in.size(), out.size());
  log_.current_a.assign(size, 0.0);
  for (std::size_t k = 0; k < size; ++k) {
    // An empty field is no current that way; a sign in front tells the direction once more.
    if (k < in.size() && !std::isnan(in[k])) log_.current_a[k] += std::abs(in[k]);
    if (k < out.size() && !std::isnan(out[k])) log_.current_a[k] -= std::abs(out[k]);
  }
  sign_ = 1;
  sign_why_ = "charge and discharge have columns of their own";
  if (in.empty() || out.empty()) {
    sign_why_ = std::string("the heading says ") + (in.empty() ? "discharge" : "charge");
  }
}

/// A column of states gives an unsigned current its direction, and a signed one its sign.
void Judge::take_directions() {
  if (raw_.state.empty() || sign_ != 0) return;
  std::vector<std::optional<Direction>> meaning;
  meaning.reserve(facts_.rows.words.size());
  for (const std::string& word : facts_.rows.words) meaning.push_back(direction_of(word));
  double with_as = 0.0;     // current that has the sign of its state, summed
  double against_as = 0.0;  // and that has not
  bool has_minus = false;
  for (std::size_t k = 0; k < log_.current_a.size(); ++k) {
    const auto direction = meaning[raw_.state[k]];
    const double current_a = log_.current_a[k];
    has_minus = has_minus || current_a < 0.0;
    if (!direction || *direction == Direction::Resting) continue;
    const double along = current_a * static_cast<int>(*direction);
    (along > 0.0 ? with_as : against_as) += std::abs(along);
  }
  if (with_as + against_as <= 0.0) return;
  // Both directions written with a plus: the states alone tell them apart.
  const bool is_unsigned =
      std::min(with_as, against_as) > 0.2 * std::max(with_as, against_as) || !has_minus;
  if (is_unsigned) {
    double last = 1.0;
    for (std::size_t k = 0; k < log_.current_a.size(); ++k) {
      const auto direction = meaning[raw_.state[k]];
      if (direction && *direction != Direction::Resting) last = static_cast<int>(*direction);
      log_.current_a[k] = last * std::abs(log_.current_a[k]) + 0.0;  // no minus zero
    }
    sign_ = 1;
    sign_why_ = "the current has no sign of its own, the column of states tells its direction";
    return;
  }
  sign_ = with_as > against_as ? 1 : -1;
  sign_why_ = "the column of states says so";
}

void Judge::take_counter() {
  log_.counter_c = std::move(raw_.of(Role::Counter));
  std::vector<double> in = std::move(raw_.of(Role::ChargeCounter));
  std::vector<double> out = std::move(raw_.of(Role::DischargeCounter));
  fill(log_.counter_c);
  fill(in);
  fill(out);
  if (!log_.counter_c.empty() || (in.empty() && out.empty())) return;
  if (in.empty() || out.empty()) {
    log_.counter_c = std::move(in.empty() ? out : in);
    return;
  }
  const int starts = carry_on(in) + carry_on(out);
  if (starts > 0) say("the counters started anew " + std::to_string(starts) + " times: carried on");
  for (std::size_t k = 0; k < in.size(); ++k) in[k] -= out[k];
  log_.counter_c = std::move(in);
  counter_has_sign_ = true;
}

void Judge::settle_units() {
  UnsaidUnits unsaid{.time = !is_said(Role::Time) && !facts_.rows.times_are_clock,
                     .voltage = !is_said(Role::Voltage),
                     .current = !is_said(Role::Current) && !is_said(Role::ChargeCurrent) &&
                                !is_said(Role::DischargeCurrent),
                     .counter = !is_said(Role::Counter) && !is_said(Role::ChargeCounter) &&
                                !is_said(Role::DischargeCounter)};
  const UnitScales found = scales_of(log_, seen(), unsaid);
  scale(log_.time_s, found.time_factor);
  scale(log_.voltage_v, found.voltage_factor);
  scale(log_.current_a, found.current_factor);
  scale(log_.counter_c, found.counter_factor);
  for (const std::string& text : found.remarks) say(text);
}

/// The counter follows the current's sign from here on, or is dropped.
void Judge::settle_counter() {
  if (log_.counter_c.empty()) return;
  Counting counting = counting_of(log_.counter_c, seen());
  if (counting == Counting::Upward) {
    const int starts = carry_on(log_.counter_c);
    give_direction(log_.counter_c, log_.current_a);
    say("the counter counts charge and discharge alike: given the current's sign" +
        (starts > 0 ? ", carried on over " + std::to_string(starts) + " new starts"
                    : std::string()));
    counting = Counting::WithCurrent;
  }
  if (counting == Counting::Unclear) {
    const bool rests = std::ranges::all_of(log_.current_a, [](double a) { return a == 0.0; });
    if (!rests) say("the counter does not follow the current: left out");
    if (!rests) log_.counter_c.clear();
    return;
  }
  const int sign = counting == Counting::WithCurrent ? 1 : -1;
  if (!counter_has_sign_) {
    const int starts = carry_on_signed(log_.counter_c, seen(), sign);
    if (starts > 0)
      say("the counter started anew " + std::to_string(starts) + " times: carried on");
  } else if (sign_ == 0) {
    sign_ = sign;
    sign_why_ = "the counter of charge rises with it";
  }
  if (log_.current_between == Between::Straight)
    log_.current_between = between_by_counter(log_.counter_c, seen(), sign);
  scale(log_.counter_c, sign);
}

void Judge::settle_sign() {
  const VoltageAnswer answer = answer_of_voltage(log_.voltage_v, seen());
  const int comment = sign_of_comments(facts_.text.comments);
  const int by_voltage = answer.by_steps != 0 ? answer.by_steps : answer.by_trend;
  const bool has_minus = std::ranges::any_of(log_.current_a, [](double a) { return a < 0.0; });
  if (sign_ == 0 && !has_minus && log_.counter_c.empty() &&
      sign_by_stretches(log_.current_a, log_.voltage_v, seen())) {
    sign_ = 1;
    sign_why_ = "the current has no sign; where the voltage falls it discharges";
  } else if (sign_ == 0 && by_voltage != 0) {
    sign_ = by_voltage;
    const std::string moves = sign_ > 0 ? "rises" : "falls";
    sign_why_ = answer.by_steps != 0
                    ? "the voltage " + moves + " when it rises, by " +
                          base::number_text(1e3 * answer.step_ohm, 2) + " mV per ampere"
                    : "the voltage " + moves + " while it flows";
    if (comment == sign_) sign_why_ += "; the file says the same";
    if (comment == -sign_) sign_why_ += "; the file's own words say the opposite";
  } else if (sign_ == 0 && comment != 0) {
    sign_ = comment;
    sign_why_ = "the file says so, the voltage tells nothing";
  } else if (sign_ == 0) {
    sign_ = 1;
    sign_why_ = "nothing in the file tells: taken so";
  } else if (by_voltage == -sign_ && answer.by_steps != 0) {
    sign_why_ += "; yet the voltage answers the other way, check the leads";
  }
  const bool flows = std::ranges::any_of(log_.current_a, [](double a) { return a != 0.0; });
  if (flows)
    say(std::string("a positive current ") + (sign_ > 0 ? "charges" : "discharges") +
        " the cell: " + sign_why_);
  // Minus zero would be a reading of its own to whoever prints it.
  if (sign_ > 0) return;
  for (double& current_a : log_.current_a) current_a = 0.0 - current_a;
  for (double& counter_as : log_.counter_c) counter_as = 0.0 - counter_as;
}

void Judge::say_sections() {
  std::size_t gaps = 0;
  double moved_as = 0.0;
  for (const Section& section : log_.sections) {
    if (section.begins != Section::Begins::Gap) continue;
    ++gaps;
    if (!log_.counter_c.empty())
      moved_as += log_.counter_c[section.first] - log_.counter_c[section.first - 1];
  }
  if (log_.sections.size() < 2) return;
  std::string text = std::to_string(log_.sections.size()) + " sections";
  if (gaps > 0) text += ", " + std::to_string(gaps) + " of them behind a gap";
  if (gaps > 0 && !log_.counter_c.empty())
    text += " in which the counter went on, by " + base::number_text(moved_as / 3600.0, 4) +
            " Ah in all";
  say(text, log_.sections[1].line);
}

Log Judge::judge() {
  take_columns();
  take_current();
  take_counter();
  settle_units();
  // A column of means has no steps: each value stands for its time, whatever came before.
  log_.step_a = log_.current_between == Between::Before ? 0.0 : step_of_current_a(log_.current_a);
  take_directions();
  settle_counter();
  settle_sign();
  log_.sections = make_sections(log_, raw_, breaks_, find_gaps(log_, breaks_), facts_.rows.words);
  say_sections();
  return std::move(log_);
}

}  // namespace

Log judge_log(RawLog& raw, const FileFacts& facts, std::vector<Remark>& remarks) {
  return Judge(raw, facts, remarks).judge();
}

}  // namespace tideover::cell
