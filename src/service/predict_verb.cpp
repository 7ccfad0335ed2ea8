#include "service/predict_verb.hpp"

#include "question/glance.hpp"
#include "question/rehearsal.hpp"
#include "service/prediction_json.hpp"
#include "service/prediction_lines.hpp"
#include "service/project.hpp"

namespace tideover::service {

namespace {

Reply predict(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const bool is_quick = request.option("--quick").has_value();
  const question::Prediction prediction = is_quick ? question::glance(build.value(), {}, progress)
                                                   : question::predict(build.value(), {}, progress);
  Reply reply{.status = status_of(prediction)};
  reply.lines = prediction_lines(build.value(), prediction);
  if (is_quick) {
    reply.lines.push_back({});
    reply.lines.push_back(
        {Tone::Warning,
         "A quick look: one outage, cells as they are, devices at their mean draw. Without --quick "
         "also worn cells, cold, heat, bursts and every timeline of the sheet."});
  } else if (question::has_bursts(build.value())) {
    reply.lines.push_back({});
    reply.lines.push_back({Tone::Quiet,
                           "The devices draw by their profiles here; `tideover changeover` tries "
                           "each change of source at their highest draw too."});
  }
  reply.json = with_preamble("predict", build.value(), prediction_json(prediction));
  return reply;
}

}  // namespace

Verb predict_verb() {
  return {"predict",
          "will it carry the loads, for how long, and what gives?",
          "Runs the build through its timelines: with the cells as they are in the middle of the "
          "stated ambient, at the end of their life at its cold end, and as they are at its hot "
          "end; then the long dark after the cut-off. Says who is served until when, how long "
          "recharging takes, what comes near its rating, and what to change. Writes nothing.",
          true,
          predict,
          {},
          {},
          {{"--quick", "", "one outage with the cells as they are, at once"}}};
}

}  // namespace tideover::service
