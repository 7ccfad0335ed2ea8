#include "question/verdict.hpp"

#include <algorithm>

#include "question/judge_needs.hpp"
#include "question/phrases.hpp"

namespace tideover::question {

namespace {

/// Fails first, then what nobody knows, then tight, then what holds.
int rank(Answer answer) {
  switch (answer) {
    case Answer::Fails: return 0;
    case Answer::Unknown: return 1;
    case Answer::Tight: return 2;
    case Answer::Classed:
    case Answer::Holds: break;
  }
  return 3;
}

/// "Before anything else: sea is fed backwards; f_sea blows."
std::string harm_of(const std::vector<Judgement>& judgements) {
  constexpr std::size_t most = 4;
  std::vector<std::string> harms;
  for (const Judgement& one : judgements) {
    const bool counts = one.answer == Answer::Fails && one.is_harm();
    if (counts && std::ranges::find(harms, one.brief) == harms.end()) harms.push_back(one.brief);
  }
  if (harms.empty()) return {};
  std::string text = "Before anything else: ";
  for (std::size_t k = 0; k < std::min(harms.size(), most); ++k) {
    text += (k > 0 ? "; " : "") + harms[k];
  }
  if (harms.size() > most) text += "; and " + std::to_string(harms.size() - most) + " more";
  return text + ".";
}

std::string carries(const Trial& trial, const build::Build& build, bool harms) {
  const Outage* const outage = trial.judged_outage();
  if (outage == nullptr || outage->servings.empty()) return {};
  const std::string devices = devices_in_words(outage->servings);
  for (const Serving& serving : outage->servings) {
    if (!serving.served_before) {
      return "Does not serve " + serving.load + " even with the mains present";
    }
  }
  if (!outage->carried_whole && outage->carried.si() < at_loss_s) {
    return "Does not carry " + devices + " across the loss of mains";
  }
  std::string text = std::string(harms ? "Would carry " : "Carries ") + devices + " for " +
                     (outage->carried_whole ? "at least " : "") + show_time(outage->carried);
  if (build.needs.outlast.given) {
    text += "; " + show_time(build.needs.outlast.nominal()) + " asked for";
  }
  return text;
}

/// With cells as they are and with worn ones, each with its circumstances; what is the same under
/// both is said once.
std::vector<std::string> carried_lines(const Evidence& evidence, bool harms) {
  const std::string usual = carries(evidence.usual, evidence.build, harms);
  const std::string worn = carries(evidence.worn, evidence.build, harms);
  const std::string& words = evidence.usual.words;
  const std::string& worn_words = evidence.worn.words;
  std::vector<std::string> lines;
  if (usual == worn && !usual.empty()) {
    const std::string both = words == worn_words ? words : words + "; " + worn_words;
    return {usual + " (" + both + ")."};
  }
  if (!usual.empty()) lines.push_back(usual + " (" + words + ").");
  if (!worn.empty()) lines.push_back(worn + " (" + worn_words + ").");
  return lines;
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

std::vector<std::string> headline_of(const Evidence& evidence, const Verdict& verdict) {
  const std::string harm = harm_of(verdict.judgements);
  std::vector<std::string> lines = carried_lines(evidence, !harm.empty());
  if (!harm.empty()) lines.insert(lines.begin(), harm);
  if (std::string line = fills(evidence); !line.empty()) lines.push_back(std::move(line));
  if (!verdict.states_needs) {
    lines.emplace_back(
        "The sheet asks for nothing: say in [needs] how long the devices must be carried (outlast) "
        "and how soon the pack must be full again (recharge). Until then only ratings are judged.");
  }
  return lines;
}

void add(std::vector<Judgement> some, std::vector<Judgement>& all) {
  for (Judgement& one : some) all.push_back(std::move(one));
}

/// Those that fail or are tight; of what can do harm, or of the rest.
void add_findings(const std::vector<finding::Found>& findings, bool harms,
                  std::vector<Judgement>& all) {
  for (const auto& [rule, finding] : findings) {
    const bool is_bad = finding.answer == Answer::Fails || finding.answer == Answer::Tight;
    if (!is_bad || rule->is_harm != harms) continue;
    std::string brief = finding.brief;
    if (brief.empty()) brief = finding.part + ": " + std::string(rule->title);
    all.push_back({Matter::Finding, finding.answer, finding.sentence, finding.advice, rule,
                   std::move(brief)});
  }
}

/// Worst first, and what comes of all.
void sum_up(Verdict& verdict) {
  std::vector<Judgement>& all = verdict.judgements;
  std::stable_sort(all.begin(), all.end(), [](const Judgement& one, const Judgement& other) {
    return rank(one.answer) < rank(other.answer);
  });
  verdict.outcome = all.empty() ? Answer::Unknown : all.front().answer;
  verdict.is_met = std::ranges::none_of(all, [](const Judgement& one) {
    return one.answer == Answer::Fails || (one.answer == Answer::Unknown && is_need(one.about));
  });
}

}  // namespace

std::string_view in_words(Matter matter) {
  switch (matter) {
    case Matter::Run: return "run";
    case Matter::Outlast: return "outlast";
    case Matter::Service: return "service";
    case Matter::Recharge: return "recharge";
    case Matter::Life: return "life";
    case Matter::Change: return "change";
    case Matter::Finding: break;
  }
  return "finding";
}

bool is_need(Matter matter) {
  return matter == Matter::Outlast || matter == Matter::Recharge || matter == Matter::Life ||
         matter == Matter::Run;
}

std::string_view Judgement::key() const { return rule == nullptr ? in_words(about) : rule->key; }

finding::Evidence Evidence::for_rules() const {
  finding::Evidence evidence{build, {}};
  for (const Trial* trial : trials()) {
    const bool has_begun = !trial->record.channels.empty() && trial->record.outcome.time_s >= 0.0;
    if (!has_begun) continue;
    evidence.cases.push_back({trial->words, trial->circumstances, &trial->record});
  }
  return evidence;
}

std::vector<const Trial*> Evidence::trials() const {
  std::vector<const Trial*> all;
  for (const Trial* trial : {&usual, &worn, &hot}) {
    if (trial->was_tried()) all.push_back(trial);
  }
  for (const Trial& other : others) all.push_back(&other);
  return all;
}

std::vector<const Trial*> Evidence::trials(const run::Circumstances& under) const {
  std::vector<const Trial*> same;
  for (const Trial* trial : trials()) {
    if (are_same(trial->circumstances, under)) same.push_back(trial);
  }
  return same;
}

Verdict judge(const Evidence& evidence) {
  Verdict verdict;
  const build::Needs& needs = evidence.build.needs;
  verdict.states_needs = needs.outlast.given || needs.recharge.given || needs.life.given;
  std::vector<Judgement>& all = verdict.judgements;
  verdict.findings = finding::check(evidence.for_rules());
  add(judge_runs(evidence), all);
  add_findings(verdict.findings, true, all);
  for (const auto& judge_one : {judge_outlast, judge_service, judge_recharge, judge_life}) {
    add(judge_one(evidence), all);
  }
  add_findings(verdict.findings, false, all);
  sum_up(verdict);
  verdict.headline = headline_of(evidence, verdict);
  return verdict;
}

void add_judgements(std::vector<Judgement> some, Verdict& verdict) {
  if (some.empty()) return;
  add(std::move(some), verdict.judgements);
  sum_up(verdict);
}

}  // namespace tideover::question
