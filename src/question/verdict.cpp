#include "question/verdict.hpp"

#include <algorithm>

#include "question/judge_needs.hpp"
#include "question/judge_ratings.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

namespace {

/// Fails first, then what nobody knows, then tight, then what holds.
int rank(Answer answer) {
  switch (answer) {
    case Answer::Fails: return 0;
    case Answer::Unknown: return 1;
    case Answer::Tight: return 2;
    case Answer::Holds: break;
  }
  return 3;
}

std::string carries(const Trial& trial, const build::Build& build) {
  const Outage* const outage = trial.judged_outage();
  if (outage == nullptr) return {};
  const std::string devices = devices_in_words(outage->servings);
  if (outage->servings.empty()) return {};
  if (outage->carried.si() < at_loss_s) {
    return "Does not carry " + devices + " across the loss of mains (" + trial.words + ").";
  }
  std::string text = "Carries " + devices + " for " + (outage->carried_whole ? "at least " : "") +
                     show_time(outage->carried);
  if (build.needs.outlast.given) {
    text += "; " + show_time(build.needs.outlast.nominal()) + " asked for";
  }
  return text + " (" + trial.words + ").";
}

std::string fills(const Evidence& evidence) {
  const Outage* const usual = evidence.usual.judged_outage();
  const Outage* const worn = evidence.worn.judged_outage();
  if (usual == nullptr || !usual->full_after) return {};
  std::string text = "Full again " + show_time(*usual->full_after) + " after the mains is back";
  if (worn != nullptr && worn->full_after) {
    text += ", " + show_time(*worn->full_after) + " at the end of the cells' life";
  }
  if (evidence.build.needs.recharge.given) {
    text += "; " + show_time(evidence.build.needs.recharge.nominal()) + " asked for";
  }
  return text + ".";
}

std::vector<std::string> headline_of(const Evidence& evidence) {
  std::vector<std::string> lines;
  for (std::string line : {carries(evidence.usual, evidence.build),
                           carries(evidence.worn, evidence.build), fills(evidence)}) {
    if (!line.empty()) lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace

std::string_view in_words(Answer answer) {
  switch (answer) {
    case Answer::Holds: return "holds";
    case Answer::Tight: return "tight";
    case Answer::Fails: return "fails";
    case Answer::Unknown: break;
  }
  return "unknown";
}

Verdict judge(const Evidence& evidence) {
  Verdict verdict;
  std::vector<Judgement>& all = verdict.judgements;
  for (const auto& judge_one : {judge_runs, judge_outlast, judge_service, judge_recharge,
                                judge_ratings, judge_head_room, judge_chatter}) {
    for (Judgement& judgement : judge_one(evidence)) all.push_back(std::move(judgement));
  }
  std::ranges::stable_sort(all, {}, [](const Judgement& one) { return rank(one.answer); });
  verdict.outcome = all.empty() ? Answer::Unknown : all.front().answer;
  verdict.headline = headline_of(evidence);
  return verdict;
}

}  // namespace tideover::question
