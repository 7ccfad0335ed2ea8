#include "question/hold_up_remarks.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

namespace {

using quantity::show;

/// Solver and formula agree within this: the formula leaves out the load's own draw while the
/// capacitor's resistance warms, the bounce of contacts and the law of the load near its end.
constexpr double agrees_within = 0.1;
constexpr double longer_by = 1.05;
/// A capacitor of more than this at 12 V or 24 V is as large as the device. Assumed.
constexpr quantity::Farad unwieldy = quantity::Farad::of_si(10e-3);

std::string relays_in_words(const std::vector<std::string>& relays) {
  return base::quoted_list(relays, "and");
}

/// What formula and solver are told of.
const Passage& asked_of(const HoldUp& answer) {
  return answer.fitting == Fitting::BehindDiode ? answer.with_found : answer.passage;
}

std::string time_told(const HoldUp& answer) {
  const quantity::Second gap = asked_of(answer).without_source;
  std::string text = fmt::format("It lives on what is stored for {}", show_time(gap));
  if (gap > answer.bridged) {
    text += fmt::format(", of which it may ride {} of itself", show_time(gap - answer.bridged));
  }
  return text + ".";
}

void compare(const HoldUp& answer, std::vector<std::string>& remarks) {
  if (!answer.closed && answer.bridged.si() <= 0.0) {
    remarks.emplace_back(
        "By the closed formula none is needed: it lives on what is stored for no longer than it "
        "rides.");
    return;
  }
  if (!answer.closed) {
    remarks.push_back(
        "The closed formula cannot say: the voltage before the change, less the step "
        "across the capacitor's own resistance, is not above the lowest accepted.");
    return;
  }
  const double solver_f = answer.found->si() + answer.own.si();
  const double formula_f = answer.closed->si() + answer.own.si();
  const bool is_longer =
      answer.with_found.without_source > longer_by * asked_of(answer).without_source;
  if (solver_f > formula_f * (1.0 + agrees_within)) {
    remarks.push_back(
        is_longer
            ? fmt::format("The solver needs more than the formula: the capacitor feeds the rest of "
                          "the rail too, which sags more slowly, so that the load lives {} on what "
                          "is stored, not {}.",
                          show_time(answer.with_found.without_source),
                          show_time(answer.passage.without_source))
            : "The solver needs more than the formula: the step across the capacitor's own "
              "resistance comes first, contacts bounce, and what else hangs on the rail draws on "
              "it too.");
  } else if (solver_f < formula_f * (1.0 - agrees_within)) {
    remarks.emplace_back(
        answer.is_constant_power
            ? "The solver needs less than the formula: the source is not gone at once; what is "
              "stored in it and on the rail feeds the load until the contacts move."
            : "The solver needs less than the formula, which supposes constant power: this load "
              "draws less as its voltage falls.");
  } else {
    remarks.push_back("Solver and closed formula agree: the load lives on the capacitor alone.");
  }
}

std::string rail_words(const std::vector<std::string>& relays) {
  if (relays.empty()) {
    return "What it stores goes into the rest of the rail, or the source that comes next cannot "
           "lift it.";
  }
  return fmt::format(
      "It feeds the rail on which the coil of {} hangs as well: the slower the rail "
      "sags, the later the contacts move.",
      relays_in_words(relays));
}

std::string what_else(const std::vector<std::string>& relays) {
  std::string diode = "a second path through a diode, which takes over without a gap.";
  if (relays.empty()) return diode;
  return fmt::format(
      "let the coil of {} go while the rail is still higher (more diodes or a resistor in its "
      "feed), a faster suppression across it, or {}",
      relays_in_words(relays), diode);
}

void explain_none(const HoldUp& answer, const std::vector<std::string>& relays,
                  std::vector<std::string>& remarks) {
  const Passage& passage = answer.passage;
  if (passage.below.si() <= 0.0) {
    remarks.push_back(fmt::format(
        "No capacitor helps: its input goes up to {}, above the {} it accepts. What would do: a "
        "lower rail, or a converter before it.",
        show(passage.highest), show(passage.accepts.high)));
    return;
  }
  if (!passage.is_fed_again) {
    remarks.push_back(
        "No capacitor makes up for a source: nothing feeds it when the change is "
        "over.");
    return;
  }
  remarks.push_back(
      fmt::format("No capacitor up to {} across it would do, with a diode before it "
                  "or without.",
                  show(quantity::Farad::of_si(most_tried_f))));
  remarks.push_back(rail_words(relays));
  remarks.push_back("What else: " + what_else(relays));
}

}  // namespace

std::vector<std::string> hold_up_remarks(const HoldUp& answer,
                                         const std::vector<std::string>& relays) {
  std::vector<std::string> remarks;
  if (!answer.found) {
    explain_none(answer, relays, remarks);
    return remarks;
  }
  if (answer.fitting == Fitting::BehindDiode) {
    remarks.push_back(fmt::format(
        "Without the diode no capacitor up to {} would do. {} Behind a diode it feeds the load "
        "only, "
        "and the rail is rid of the load's capacitors: without a source for {}, not {}.",
        show(quantity::Farad::of_si(most_tried_f)), rail_words(relays),
        show_time(answer.with_found.without_source), show_time(answer.passage.without_source)));
  }
  remarks.push_back(time_told(answer));
  compare(answer, remarks);
  if (*answer.found > unwieldy) {
    remarks.push_back("That is more than one would fit. What else: " + what_else(relays));
  }
  return remarks;
}

}  // namespace tideover::question
