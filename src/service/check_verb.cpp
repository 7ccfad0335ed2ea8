#include "service/check_verb.hpp"

#include <algorithm>

#include "service/finding_lines.hpp"
#include "service/findings_json.hpp"
#include "service/project.hpp"

namespace tideover::service {

namespace {

/// A run that could not be carried out leaves findings that nobody has asked.
bool is_sound(const question::Verdict& verdict) {
  return std::ranges::none_of(verdict.judgements, [](const question::Judgement& one) {
    const bool counts =
        one.about == question::Matter::Finding || one.about == question::Matter::Run;
    return counts && one.answer == finding::Answer::Fails;
  });
}

Reply check(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const question::Prediction prediction = question::predict(build.value(), {}, progress);
  Reply reply{.status = is_sound(prediction.verdict) ? Status::Met : Status::NotMet};
  if (prediction.is_partial) reply.status = Status::Stopped;
  reply.lines = finding_lines(build.value(), prediction);
  Json::Object json = preamble("check", build.value());
  json.emplace_back("is_partial", prediction.is_partial);
  json.emplace_back("findings", findings_json(prediction.verdict.findings));
  reply.json = std::move(json);
  return reply;
}

}  // namespace

Verb check_verb() {
  return {"check", "what an experienced builder would find: each rule with its number and limit",
          "Runs the build as `predict` does, then goes through the rules of the trade one by one: "
          "voltages, currents, charging, the order of cut-offs, heat, leads. Every finding holds, "
          "is tight, fails, is unknown (and says what to measure), or is a class with what follows "
          "from it; each comes with what was measured, its limit, the margin, where the rule is "
          "from, and what to change. A finding that fails gives exit status 1.",
          true, check};
}

}  // namespace tideover::service
