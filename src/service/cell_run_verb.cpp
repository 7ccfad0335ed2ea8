#include "service/cell_run_verb.hpp"

#include <fmt/format.h>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "cell/cell_row.hpp"
#include "cell/read_load.hpp"
#include "quantity/show.hpp"
#include "quantity/text.hpp"
#include "service/project.hpp"

namespace tideover::service {

using namespace quantity;

namespace {

constexpr std::uint64_t largest_load_bytes = 200'000'000;
constexpr double kelvin = 273.15;

base::Problem missing(const std::string& option, const std::string& remedy) {
  return {{}, "the option `" + option + "` is missing", remedy};
}

/// What is asked, read and checked.
struct Question {
  cell::CellClass cell;
  cell::RunDownTask task;
};

template <class Type>
Type exact_or(const Request& request, const std::string& option, Type otherwise,
              base::Problems& problems) {
  const auto text = request.option(option);
  if (!text) return otherwise;
  const auto read = read_exact<Type>(*text);
  if (read) return read.value();
  for (base::Problem problem : read.problems()) {
    problem.place = {};
    problem.text = option + " \"" + *text + "\": " + problem.text;
    problems.push_back(std::move(problem));
  }
  return otherwise;
}

void read_cell(const Request& request, Question& question, base::Problems& problems) {
  const auto file = request.option("--cell");
  if (!file) {
    problems.push_back(missing(
        "--cell", "Name the file of a fitted cell, or a cell of the shelf: shelf:nmc-18650-2900."));
    return;
  }
  if (file->starts_with("shelf:")) {
    for (const cell::CellClass& one : cell::shelf_classes()) {
      if ("shelf:" + one.name == *file) question.cell = one;
    }
    if (question.cell.name.empty()) {
      problems.push_back(
          {{}, "there is no cell `" + *file + "`", "`tideover shelf cell` lists them."});
    }
    return;
  }
  const auto text = base::read_file(*file, base::largest_toml_bytes);
  const auto row = text ? cell::read_row_text(text.value(), *file)
                        : base::Result<cell::CellClass>(text.problems());
  if (row) {
    question.cell = row.value();
  } else {
    problems.insert(problems.end(), row.problems().begin(), row.problems().end());
  }
}

void read_load(const Request& request, Question& question, base::Problems& problems) {
  const auto file = request.option("--load");
  if (!file) {
    problems.push_back(missing("--load", "Name a file with the columns t_s and p_W or i_A."));
    return;
  }
  const auto text = base::read_file(*file, largest_load_bytes);
  const auto load = text ? cell::read_load(text.value(), *file)
                         : base::Result<cell::LoadProfile>(text.problems());
  if (load) {
    question.task.load = load.value();
  } else {
    problems.insert(problems.end(), load.problems().begin(), load.problems().end());
  }
}

base::Result<Question> read_question(const Request& request) {
  Question question;
  base::Problems problems;
  read_cell(request, question, problems);
  read_load(request, question, problems);
  const double until_v = exact_or(request, "--until", Volt::of_si(-1.0), problems).si();
  const double ambient_k =
      exact_or(request, "--ambient", Temperature::of_celsius(25.0), problems).si();
  if (!problems.empty()) return problems;
  question.task.law = cell::law_of(question.cell.cell);
  question.task.until_v = until_v > 0.0 ? until_v : question.cell.cell.discharge_to.si();
  question.task.ambient_k = ambient_k;
  question.task.start.temperature_k = ambient_k;
  return question;
}

Json column(const cell::RunDown& run, double (*value)(const cell::RunPoint&)) {
  Json::List list;
  list.reserve(run.trace.size());
  for (const cell::RunPoint& point : run.trace) list.emplace_back(value(point));
  return list;
}

Json trace_json(const cell::RunDown& run) {
  using P = cell::RunPoint;
  return Json::Object{{"t_s", column(run, [](const P& p) { return p.time_s; })},
                      {"v_V", column(run, [](const P& p) { return p.voltage_v; })},
                      {"i_A", column(run, [](const P& p) { return -p.current_a; })},
                      {"temp_C", column(run, [](const P& p) { return p.temperature_k - kelvin; })},
                      {"charge_share", column(run, [](const P& p) { return p.charge_share; })}};
}

const char* how(cell::RunDown::End end) {
  switch (end) {
    case cell::RunDown::End::LimitReached: return "the voltage fell to the limit";
    case cell::RunDown::End::Collapsed: return "the cell cannot give that much power";
    case cell::RunDown::End::LoadOver: break;
  }
  return "the load was over before the cell was empty";
}

Json run_json(const Question& question, const cell::RunDown& run) {
  const bool is_empty = run.end != cell::RunDown::End::LoadOver;
  double hottest_k = 0.0;
  for (const cell::RunPoint& point : run.trace)
    hottest_k = std::max(hottest_k, point.temperature_k);
  return Json::Object{{"tideover", version()},
                      {"verb", "cell-run"},
                      {"cell", question.cell.name},
                      {"until_V", question.task.until_v},
                      {"ambient_C", question.task.ambient_k - kelvin},
                      {"end_time_s", is_empty ? Json(run.end_s) : Json()},
                      {"ended", how(run.end)},
                      {"run_s", run.end_s},
                      {"taken_Ah", run.taken_c / 3600.0},
                      {"taken_Wh", run.taken_j / 3600.0},
                      {"hottest_C", hottest_k - kelvin},
                      {"sign", "positive current: the cell delivers"},
                      {"trace", trace_json(run)}};
}

std::vector<Line> run_lines(const Question& question, const cell::RunDown& run) {
  const cell::RunPoint& last = run.trace.back();
  return {
      {Tone::Strong, fmt::format("{} under the load, from full, in air of {}", question.cell.name,
                                 show(Temperature::of_si(question.task.ambient_k)))},
      {Tone::Plain, fmt::format("After {} {}.", show(Second::of_si(run.end_s), 4), how(run.end))},
      {Tone::Plain,
       fmt::format("It gave {} and {}; in the end it stands at {} and {}, with {} of its charge.",
                   show(Coulomb::of_si(run.taken_c), 4), show(Joule::of_si(run.taken_j), 4),
                   show(Volt::of_si(last.voltage_v), 4),
                   show(Temperature::of_si(last.temperature_k)),
                   show(Ratio::of_si(last.charge_share)))},
      {Tone::Quiet,
       "One cell by itself: no board, no wires, no neighbours that keep it warm. Two runs of "
       "one test on one cell may differ by 2 %."}};
}

Reply cell_run(const Request& request, base::Progress&) {
  const auto question = read_question(request);
  if (!question) return refusal(question.problems());
  const cell::RunDown run = cell::run_down(question.value().task);
  Reply reply;
  reply.lines = run_lines(question.value(), run);
  reply.json = run_json(question.value(), run);
  return reply;
}

}  // namespace

Verb cell_run_verb() {
  Verb verb{"cell-run", "run one cell alone against a load",
            "Runs one cell, fitted or of the shelf, from full against a load file until its "
            "voltage falls to a limit. The file has the columns t_s and p_W or i_A (positive: the "
            "cell delivers), each value holding up to its time. With --json the whole trace: where "
            "the load changes, the voltage stands midway between its two sides. Writes nothing.",
            false, cell_run};
  verb.options = {
      {"--cell", "FILE", "a fitted cell, or shelf:NAME"},
      {"--load", "FILE", "what is taken out of it"},
      {"--until", "VOLTAGE", "where it is empty; else where its row says"},
      {"--ambient", "TEMPERATURE", "of the air, and of the cell at first; else 25 degC"}};
  return verb;
}

}  // namespace tideover::service
