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
#include "service/faults_json.hpp"
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

/// All that the report is made of.
struct Answers {
  question::Prediction prediction;
  question::Changeovers changes;
  question::Bands bands;
  question::FaultTable faults;
  [[nodiscard]] bool is_partial() const {
    return prediction.is_partial || changes.is_partial || bands.is_partial() || faults.is_partial;
  }
};

/// What the reply and run.json say of them.
Json::Object answers_json(const build::Build& build, const Answers& found) {
  Json::Object json = with_preamble("report", build, prediction_json(found.prediction));
  json.emplace_back("changeover", changeover_json(found.changes));
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

void write_all(const build::Build& build, const Answers& found, const std::filesystem::path& out,
               Reply& reply) {
  const auto& [prediction, changes, bands, faults] = found;
  const auto write_document = [&](const char* name, const Json::Object& json) {
    write(out / name, write_json(json, Layout::OneLine) + "\n", reply);
  };
  Json::Object json = answers_json(build, found);
  write(out / "report.html",
        papers::report_html(build, prediction, version(), changes, bands, faults), reply);
  write(out / "run.csv", papers::run_csv(prediction.usual.record), reply);
  write_document("run.json", run_document(json, prediction));
  write(out / "bands.csv", papers::bands_csv(bands), reply);
  write_document("bands.json", with_preamble("bands", build, bands_json(bands)));
  write(out / "faults.csv", faults_csv(faults), reply);
  write_document("faults.json", with_preamble("faults", build, faults_json(faults)));
  Json::List written;
  for (const auto& path : reply.written) written.push_back(path.string());
  json.emplace_back("written", std::move(written));
  reply.json = std::move(json);
}

/// Most of the time goes into the faults.
Answers ask_all(const build::Build& build, base::Progress& progress) {
  constexpr double predicted = 0.1;
  constexpr double changed = 0.15;
  constexpr double drawn = 0.3;
  question::Portion first(progress, 0.0, predicted);
  question::Portion second(progress, predicted, changed);
  question::Portion third(progress, changed, drawn);
  question::Portion fourth(progress, drawn, 1.0);
  Answers found{
      .prediction = question::predict(build, {}, first),
      .changes = question::changeover(build, {}, second),
      .bands = question::bands(build, {.draws = draws_in_report, .width_draws = 0}, third),
      .faults = question::fault_table(build, fourth)};
  question::add_judgements(question::judge_changes(found.changes, found.prediction),
                           found.prediction.verdict);
  return found;
}

Reply report(const Request& request, base::Progress& progress) {
  const auto build = read_project(request);
  if (!build) return refusal(build.problems());
  const Answers found = ask_all(build.value(), progress);
  Reply reply{.status = std::max(status_of(found.prediction), status_of(found.changes))};
  if (found.is_partial()) reply.status = Status::Stopped;
  reply.lines = prediction_lines(build.value(), found.prediction);
  for (Line& line : changeover_headline(found.changes)) reply.lines.push_back(std::move(line));
  const std::filesystem::path out = folder_of(request.folder) / "out";
  reply.problems = base::make_folder(out);
  if (!reply.problems.empty()) {
    reply.status = Status::Refused;
    return reply;
  }
  std::error_code unreadable;
  if (found.is_partial() && std::filesystem::exists(out / "report.html", unreadable)) {
    reply.lines.push_back({Tone::Bad, "Nothing written: out/ keeps the report it has."});
    reply.json = preamble("report", build.value());
    return reply;
  }
  write_all(build.value(), found, out, reply);
  return reply;
}

}  // namespace

Verb report_verb() {
  return {"report", "predict, changeover, bands, faults, and write the report into out/",
          "Does what `predict`, `changeover`, (with few draws) `bands` and `faults` do and writes "
          "seven files into the project's folder: out/report.html (verdict, plots, tables, every "
          "fault, every value used), out/run.csv (the run as a table), out/run.json (the same and "
          "all runs' answers, for programs), out/bands.csv and out/bands.json, out/faults.csv and "
          "out/faults.json. Stopped by Ctrl-C, it leaves a report that is there already as it is.",
          true, report};
}

}  // namespace tideover::service
