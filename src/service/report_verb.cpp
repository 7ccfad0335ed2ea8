#include "service/report_verb.hpp"

#include <algorithm>

#include "base/file.hpp"
#include "papers/bands_csv.hpp"
#include "papers/report.hpp"
#include "papers/run_csv.hpp"
#include "question/judge_changes.hpp"
#include "question/portion.hpp"
#include "service/bands_json.hpp"
#include "service/changeover_json.hpp"
#include "service/changeover_lines.hpp"
#include "service/prediction_json.hpp"
#include "service/prediction_lines.hpp"
#include "service/project.hpp"

namespace tideover::service {

namespace {

/// Enough for bands to read by; `tideover bands` makes them sharper.
constexpr std::uint64_t draws_in_report = 64;

void write(const std::filesystem::path& path, std::string_view contents, Reply& reply) {
  const base::Problems problems = base::write_file(path, contents);
  if (problems.empty()) {
    reply.written.push_back(path);
    return;
  }
  reply.problems.insert(reply.problems.end(), problems.begin(), problems.end());
  reply.status = Status::Refused;
}

/// What both questions answered.
Json::Object answers(const build::Build& build, const question::Prediction& prediction,
                     const question::Changeovers& changes) {
  Json::Object json = preamble("report", build);
  for (auto& entry : prediction_json(prediction)) json.push_back(std::move(entry));
  json.emplace_back("changeover", changeover_json(changes));
  return json;
}

Json::Object run_document(Json::Object json, const question::Prediction& prediction) {
  Json::List runs;
  for (const question::Trial* trial : prediction.trials()) {
    Json::Object run{{"words", trial->words}};
    const Samples samples = runs.empty() ? Samples::Taken : Samples::Left;
    for (auto& entry : record_json(trial->record, samples)) run.push_back(std::move(entry));
    runs.push_back(std::move(run));
  }
  json.emplace_back("runs", std::move(runs));
  return json;
}

void write_all(const build::Build& build, const question::Prediction& prediction,
               const question::Changeovers& changes, const question::Bands& bands,
               const std::filesystem::path& out, Reply& reply) {
  Json::Object json = answers(build, prediction, changes);
  write(out / "report.html", papers::report_html(build, prediction, version(), changes, bands),
        reply);
  write(out / "run.csv", papers::run_csv(prediction.usual.record), reply);
  write(out / "run.json", write_json(run_document(json, prediction), Layout::OneLine) + "\n",
        reply);
  Json::Object banded = preamble("bands", build);
  for (auto& entry : bands_json(bands)) banded.push_back(std::move(entry));
  write(out / "bands.csv", papers::bands_csv(bands), reply);
  write(out / "bands.json", write_json(banded, Layout::OneLine) + "\n", reply);
  Json::List written;
  for (const auto& path : reply.written) written.push_back(path.string());
  json.emplace_back("written", std::move(written));
  reply.json = std::move(json);
}

Reply report(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  constexpr double predicted = 0.4;
  constexpr double changed = 0.6;
  question::Portion first(progress, 0.0, predicted);
  question::Prediction prediction = question::predict(build.value(), {}, first);
  question::Portion second(progress, predicted, changed);
  const question::Changeovers changes = question::changeover(build.value(), {}, second);
  question::Portion third(progress, changed, 1.0);
  const question::Bands bands =
      question::bands(build.value(), {.draws = draws_in_report, .width_draws = 0}, third);
  question::add_judgements(question::judge_changes(changes, prediction), prediction.verdict);
  const bool is_partial = prediction.is_partial || changes.is_partial || bands.is_partial();
  Reply reply{.status = std::max(status_of(prediction), status_of(changes))};
  reply.lines = prediction_lines(build.value(), prediction);
  for (Line& line : changeover_headline(changes)) reply.lines.push_back(std::move(line));
  const std::filesystem::path out = folder_of(request.folder) / "out";
  reply.problems = base::make_folder(out);
  if (!reply.problems.empty()) {
    reply.status = Status::Refused;
    return reply;
  }
  std::error_code unreadable;
  if (is_partial && std::filesystem::exists(out / "report.html", unreadable)) {
    reply.lines.push_back({Tone::Bad, "Nothing written: out/ keeps the report it has."});
    reply.json = preamble("report", build.value());
    return reply;
  }
  write_all(build.value(), prediction, changes, bands, out, reply);
  return reply;
}

}  // namespace

Verb report_verb() {
  return {"report", "predict, changeover, bands, and write the report into out/",
          "Does what `predict`, `changeover` and (with few draws) `bands` do and writes five files "
          "into "
          "the project's folder: out/report.html (verdict, plots, tables, every value used), "
          "out/run.csv (the run as a table), out/run.json (the same and all runs' answers, for "
          "programs), out/bands.csv and out/bands.json. Stopped by "
          "Ctrl-C, it "
          "leaves a report that is there already as it is.",
          true, report};
}

}  // namespace tideover::service
