#include "service/changeover_verb.hpp"

#include "service/changeover_json.hpp"
#include "service/changeover_lines.hpp"
#include "service/project.hpp"

namespace tideover::service {

namespace {

Reply changeover(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const question::Changeovers changes = question::changeover(build.value(), {}, progress);
  Reply reply{.status = status_of(changes)};
  reply.lines = changeover_lines(build.value(), changes);
  reply.json = with_preamble("changeover", build.value(), changeover_json(changes));
  return reply;
}

}  // namespace

Verb changeover_verb() {
  return {"changeover", "each change of source in milliseconds: does every load ride through?",
          "Finds every instant of the timelines at which a source goes, comes back or is switched, "
          "tries it also with all loads at their highest and at their lowest draw, and says what "
          "each load sees: lowest voltage, time out of its range, whether it rides through, and "
          "what happens in which order. Where a load does not ride through, or narrowly, it seeks "
          "the capacitor that would do. Status 1 if a load does not ride through. Writes nothing.",
          true, changeover};
}

}  // namespace tideover::service
