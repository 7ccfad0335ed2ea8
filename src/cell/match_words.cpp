#include "cell/match_words.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "quantity/show.hpp"

namespace tideover::cell {

using namespace quantity;

namespace {

std::string percent(double share, int digits = 2) {
  return base::number_text(100.0 * share, digits) + " %";
}

std::string in_minutes(Second time) {
  return base::number_text(std::abs(time.si()) / 60.0, 3) + " min";
}

std::string in_hours(Second time) { return base::number_text(time.si() / 3600.0, 3) + " h"; }

std::string groups_sentence(const Match& match, const MatchWishes& wishes) {
  const Dealing& made = match.matched;
  const auto weakest = std::ranges::min_element(
      made.groups, {}, [](const MatchedGroup& group) { return group.capacity.si(); });
  std::string text = std::to_string(wishes.series) + " groups of " +
                     std::to_string(wishes.parallel) + ": the weakest is group " +
                     std::to_string(weakest->number) + " with " + show(made.weakest, 4);
  if (wishes.series > 1) {
    text += made.spread.si() > 0.0 ? ", the strongest has " + show(made.spread) + " more"
                                   : ", and no group has more";
  }
  return text + ".";
}

std::string proof_sentence(const Match& match) {
  if (match.was_stopped) return "The search was stopped; this is the best until then.";
  if (match.is_best) return "No other grouping of these cells is better; all were ruled out.";
  return "No grouping can have a weakest group more than " +
         percent(std::max(match.gap.si(), 1e-6)) + " stronger; this is the best found.";
}

std::string bands_sentence(const Match& match) {
  if (match.bands_impossible) {
    return "No grouping of these cells keeps the bands asked for; this one comes nearest of those "
           "looked at. Widen a band or leave the odd cells out.";
  }
  return "No grouping was found that keeps the bands asked for; this one comes nearest. Widen a "
         "band or leave the odd cells out.";
}

std::string run_time_sentence(const Match& match, const MatchWishes& wishes) {
  const Second more = match.matched.run_time - match.in_order.run_time;
  const std::string begin =
      "At " + show(wishes.load) + " the pack runs " + show(match.matched.run_time) + " from full, ";
  const std::string end = " (rest voltages; resistance takes a little off both).";
  if (std::abs(more.si()) < 1.0) return begin + "as long as with the cells taken in order" + end;
  const char* const than = more.si() > 0.0 ? " more" : " less";
  return begin + in_minutes(more) + than + " than with the cells taken in order" + end;
}

std::string balancing_sentence(const Match& match, const MatchWishes& wishes) {
  return "Joined at " + percent(wishes.joined_at.si()) + " charge, the first balancing at " +
         show(wishes.bleed) + " takes " + in_hours(match.matched.first_balancing) +
         " of bleeding; in order it would take " + in_hours(match.in_order.first_balancing) +
         ". Unequal self-discharge asks for " + in_hours(match.matched.monthly_balancing) +
         " a month, in order " + in_hours(match.in_order.monthly_balancing) + ".";
}

void add_names(std::vector<std::string>& said, const char* what,
               const std::vector<std::string>& names) {
  if (!names.empty()) said.push_back(what + base::list_in_words(names, "and") + ".");
}

}  // namespace

std::vector<std::string> match_sentences(const Match& match, const MatchWishes& wishes) {
  std::vector<std::string> said;
  said.push_back(groups_sentence(match, wishes));
  said.push_back(match.keeps_bands ? proof_sentence(match) : bands_sentence(match));
  if (wishes.load.si() > 0.0) said.push_back(run_time_sentence(match, wishes));
  if (wishes.bleed.si() > 0.0 && wishes.series > 1) {
    said.push_back(balancing_sentence(match, wishes));
  }
  add_names(said, "Spares: ", match.spares);
  add_names(said, "Rejected, not taken: ", match.rejected);
  add_names(said, "In doubt, left out: ", match.doubtful);
  add_names(said, "Left out for want of a capacity: ", match.unmeasured);
  if (match.takes_doubtful) {
    said.push_back("The accepted cells are too few, so that doubtful ones were dealt out too.");
  }
  add_names(said, "Resistance not measured, taken from the class: ", match.assumed);
  return said;
}

}  // namespace tideover::cell
