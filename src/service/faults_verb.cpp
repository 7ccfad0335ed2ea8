#include "service/faults_verb.hpp"

#include "question/coordination.hpp"
#include "question/double_fault.hpp"
#include "question/faults.hpp"
#include "service/coordination_json.hpp"
#include "service/coordination_lines.hpp"
#include "service/fault_lines.hpp"
#include "service/faults_json.hpp"
#include "service/project.hpp"

namespace tideover::service {

namespace {

constexpr const char* together_option = "--together";

Reply faults_together(const build::Build& build, const std::vector<std::string>& words,
                      base::Progress& progress) {
  const auto table = question::double_fault(build, words, progress);
  if (!table) return refusal(table.problems());
  Reply reply{.status = table.value().is_partial ? Status::Stopped : Status::Met};
  reply.lines = together_lines(build, table.value());
  reply.json = with_preamble("faults", build, faults_json(table.value()));
  return reply;
}

Reply faults(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const auto words = request.options.find(together_option);
  if (words != request.options.end() && !words->second.empty()) {
    return faults_together(build.value(), words->second, progress);
  }
  const question::FaultTable table = question::fault_table(build.value(), progress);
  const question::Coordination coordination = question::coordination(build.value());
  Reply reply{.status = table.is_partial ? Status::Stopped : Status::Met};
  reply.lines = fault_lines(build.value(), table);
  reply.lines.push_back({});
  for (Line& line : coordination_lines(coordination)) reply.lines.push_back(std::move(line));
  Json::Object json = with_preamble("faults", build.value(), faults_json(table));
  json.emplace_back("coordination", coordination_json(coordination));
  reply.json = std::move(json);
  return reply;
}

}  // namespace

Verb faults_verb() {
  return {
      "faults",
      "what happens when any single thing fails, and what nobody would notice",
      "Lets every part and every lead fail, one at a time, in each of the ways it can: before "
      "an outage and in the middle of one. Says what every device sees, what burns or breaks, "
      "which fuse clears and when, most dangerous first; which faults stay hidden until the "
      "outage, with the cheapest check that finds them; and which fuse protects which lead. "
      "A table of what could happen, not a verdict: its exit status is 0. Writes nothing.",
      true,
      faults,
      {},
      {},
      {{together_option, "FAULT",
        "only the faults named so, as the table writes them (\"f_sea: bridged\"), all at once"}}};
}

}  // namespace tideover::service
