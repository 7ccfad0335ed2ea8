#include "question/changeover_phrases.hpp"

#include <fmt/format.h>

#include "quantity/show.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

using Outcome = Passage::Outcome;
using quantity::Farad;
using quantity::show;

namespace {

std::string what_to_fit(const HoldUp& answer) {
  const Farad found = *answer.found;
  const std::string printed =
      fmt::format("{} {} (the next of E6 that is enough with 20 % less than printed)",
                  show(*answer.buy), show(answer.rated));
  if (!answer.present.empty() && answer.fitting == Fitting::AtLoad) {
    return fmt::format("{} wants {} in place of what it has: fit {}.", answer.present, show(found),
                       printed);
  }
  return fmt::format(
      "{} more across {}{} would do: fit {}.", show(found), answer.load,
      answer.fitting == Fitting::BehindDiode ? ", and a Schottky diode before both," : "", printed);
}

std::string formula_of(const HoldUp& answer) {
  const Passage& passage =
      answer.fitting == Fitting::BehindDiode ? answer.with_found : answer.passage;
  const std::string rule =
      fmt::format("C = 2 P t / (U0^2 - U1^2) with {}, {}, {} and {}", show(passage.draw),
                  show_after(answer.bridged), show(passage.before), show(passage.accepts.low));
  if (!answer.closed) return {};
  return fmt::format("The closed formula {} gives {} beside the {} it has itself.", rule,
                     answer.closed->si() > 0.0 ? show(*answer.closed) : "nothing more",
                     show(answer.own));
}

}  // namespace

std::vector<std::string> headline_of(const Changeovers& changes) {
  std::vector<std::string> lines = changes.troubles;
  if (changes.changes.empty()) {
    lines.push_back("No source changes in these timelines.");
    return lines;
  }
  bool is_narrow = false;
  bool fails = false;
  for (const Changeover& change : changes.changes) {
    for (std::size_t k = 0; k < changes.loads.size(); ++k) {
      const Passage& worst = change.worst(k);
      if (!worst.wants_more()) continue;
      (worst.outcome == Outcome::Fails ? fails : is_narrow) = true;
      lines.push_back(fmt::format("{} {} when {}.", changes.loads[k].load, verdict_of(worst),
                                  change.change.words));
    }
  }
  const std::string which = changes.loads.size() == 1 ? "The device rides" : "Every device rides";
  if (!fails && !changes.is_partial && changes.troubles.empty()) {
    lines.insert(lines.begin(), fmt::format("{} through every change of source{}.", which,
                                            is_narrow ? ", but narrowly" : ""));
  }
  return lines;
}

std::string title_of(const Changeover& change) {
  std::string words = change.change.words;
  if (words.starts_with("the ")) words.front() = 'T';  // names of parts stay as they are
  return words;
}

std::string show_after(quantity::Second after) { return show(after); }

std::string voltage_words(const Passage& passage) {
  if (passage.outcome == Outcome::NotServed || passage.outcome == Outcome::Dark) return {};
  const std::string before =
      fmt::format("{} before, drawing {}", show(passage.before), show(passage.draw));
  std::string text = passage.falls()
                         ? fmt::format("{}; lowest {} after {}", before, show(passage.lowest),
                                       show_after(passage.lowest_after))
                         : before + "; never lower";
  if (passage.above.si() > 0.0) {
    text += fmt::format("; highest {} after {}", show(passage.highest),
                        show_after(passage.highest_after));
  }
  if (passage.out_of_range().si() > 0.0) text += "; out of range " + out_of_range_words(passage);
  return text + ": ";
}

std::string verdict_of(const Passage& passage) {
  std::string words(in_words(passage.outcome));
  if (passage.is_tight()) words += " narrowly";
  if (passage.lost_after) words += ": lost after " + show_after(*passage.lost_after);
  return words;
}

std::string out_of_range_words(const Passage& passage) {
  std::string words;
  if (passage.below.si() > 0.0) words = show_after(passage.below) + " below";
  if (passage.above.si() > 0.0) {
    if (!words.empty()) words += ", ";
    words += show_after(passage.above) + " above";
  }
  return words.empty() ? "none" : words;
}

std::string seen_in(const Changeover& change, std::size_t load) {
  const Passage& worst = change.worst(load);
  for (const ChangeView& view : change.views) {
    if (&view.passages[load] == &worst) return view.words;
  }
  return {};
}

std::vector<std::string> sentences_of(const HoldUp& answer) {
  std::vector<std::string> sentences;
  if (answer.found) {
    sentences.push_back(what_to_fit(answer));
    sentences.emplace_back(
        "Mind its polarity, discharge it before you touch it, and see that fuses and contacts "
        "stand "
        "its inrush.");
  }
  const std::string formula = answer.found ? formula_of(answer) : "";
  if (!formula.empty()) sentences.push_back(formula);
  sentences.insert(sentences.end(), answer.remarks.begin(), answer.remarks.end());
  return sentences;
}

}  // namespace tideover::question
