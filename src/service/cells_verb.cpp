#include "service/cells_verb.hpp"

#include <fmt/format.h>

#include "base/file.hpp"
#include "cell/cell_row.hpp"
#include "cell/fit.hpp"
#include "cell/read_cells.hpp"
#include "quantity/show.hpp"
#include "service/project.hpp"

namespace tideover::service {

using namespace quantity;

namespace {

Json amount_json(const Amount& amount) {
  return Json::Object{
      {"nominal", amount.nominal_si}, {"low", amount.low_si}, {"high", amount.high_si}};
}

Json test_json(const cell::TestReport& test) {
  return Json::Object{{"test", test.test},
                      {"used", test.is_used},
                      {"why_not", test.why_not},
                      {"capacity_ratio", test.capacity_ratio},
                      {"start_charge", test.start_charge.si()},
                      {"rms_V", test.rms.si()},
                      {"current_offset_A", test.current_offset.si()}};
}

Json fit_json(const cell::FittedCell& fit) {
  Json::List tests;
  for (const cell::TestReport& test : fit.tests) tests.push_back(test_json(test));
  Json::List from_class;
  for (const std::string& key : fit.from_class) from_class.emplace_back(key);
  Json::List remarks;
  for (const std::string& remark : fit.remarks) remarks.emplace_back(remark);
  const part::Cell& cell = fit.cell;
  return Json::Object{{"tideover", version()},
                      {"verb", "cells"},
                      {"cell", fit.name},
                      {"class", fit.class_name},
                      {"capacity_C", amount_json(cell.capacity)},
                      {"capacity_5h_Ah", fit.capacity_5h.si() / 3600.0},
                      {"energy_5h_Wh", fit.energy_5h.si() / 3600.0},
                      {"quick_resistance_Ohm", amount_json(cell.quick_resistance)},
                      {"quick_time_s", amount_json(cell.quick_time)},
                      {"slow_resistance_Ohm", amount_json(cell.slow_resistance)},
                      {"slow_time_s", amount_json(cell.slow_time)},
                      {"cold_factor", amount_json(cell.cold_factor)},
                      {"branch_gap_V", amount_json(cell.branch_gap)},
                      {"heat_capacity_J_per_K", amount_json(cell.heat_capacity)},
                      {"to_air_K_per_W", amount_json(cell.to_air)},
                      {"from_class", std::move(from_class)},
                      {"tests", std::move(tests)},
                      {"remarks", std::move(remarks)}};
}

std::vector<Line> fit_lines(const cell::FittedCell& fit) {
  const part::Cell& cell = fit.cell;
  std::vector<Line> lines{
      {Tone::Strong, fmt::format("{}: {} from full to empty; at the 5 h rate {} and {}", fit.name,
                                 show(cell.capacity), show(fit.capacity_5h), show(fit.energy_5h))},
      {Tone::Plain,
       fmt::format(
           "Resistance beside the series one: {} within {}, {} within {}; at 0 degC {:.2f} times "
           "as much.",
           show(cell.quick_resistance), show(cell.quick_time.nominal()), show(cell.slow_resistance),
           show(cell.slow_time.nominal()), cell.cold_factor.si())}};
  for (const cell::TestReport& test : fit.tests) {
    if (!test.is_used) continue;
    lines.push_back(
        {Tone::Plain, fmt::format("  {}: off by {} r.m.s., {:.1f} % of the cell's charge",
                                  test.test, show(test.rms, 2), 100.0 * test.capacity_ratio)});
  }
  for (const std::string& remark : fit.remarks) lines.push_back({Tone::Warning, remark});
  std::string keys;
  for (const std::string& key : fit.from_class) keys += (keys.empty() ? "" : ", ") + key;
  if (!keys.empty()) {
    lines.push_back({Tone::Quiet, "The logs do not tell, so taken from shelf:" + fit.class_name +
                                      ": " + keys + "."});
  }
  lines.push_back({Tone::Quiet,
                   "Limits of voltage, current and temperature are the class's, never fitted: the "
                   "maker's sheet decides. Lithium cells burn; a cell that gets hot, swells or has "
                   "stood below its lowest voltage is not for a pack."});
  return lines;
}

/// The class asked for, or the nearest; null after telling.
const cell::CellClass* class_for(const Request& request, const std::vector<cell::Log>& logs,
                                 const std::vector<cell::CellClass>& classes,
                                 base::Problems& problems) {
  const auto asked = request.option("--class");
  if (!asked) {
    const cell::CellClass* const nearest = cell::nearest_class(logs, classes);
    if (nearest == nullptr) {
      problems.push_back({{},
                          "the logs' voltages are those of no cell on the shelf",
                          "Name a class with --class; `tideover shelf cell` lists them."});
    }
    return nearest;
  }
  for (const cell::CellClass& one : classes) {
    if (one.name == *asked || "shelf:" + one.name == *asked) return &one;
  }
  problems.push_back(
      {{}, "there is no cell class `" + *asked + "`", "`tideover shelf cell` lists them."});
  return nullptr;
}

Reply fit(const Request& request, base::Progress& progress) {
  const std::vector<std::string>& files = request.options.at("--fit");
  cell::CellFiles read;
  for (const std::string& file : files) cell::read_cell_file(file, read);
  const std::vector<cell::CellClass> classes = cell::shelf_classes();
  base::Problems problems = read.problems();
  if (read.logs.empty() && problems.empty()) {
    problems.push_back(
        {{}, "there is no log in these files", "A log has voltage and current against time."});
  }
  if (!problems.empty()) return refusal(problems);
  const cell::CellClass* const of_class = class_for(request, read.logs, classes, problems);
  if (of_class == nullptr) return refusal(problems);
  const std::string name = request.option("--name").value_or("fitted");
  const auto fitted = cell::fit_cell(name, read.logs, *of_class, progress);
  if (!fitted) return refusal(fitted.problems());
  Reply reply;
  reply.lines = fit_lines(fitted.value());
  reply.json = fit_json(fitted.value());
  if (const auto out = request.option("--out")) {
    std::vector<std::string> names;
    for (const std::string& file : files) {
      names.push_back(std::filesystem::path(file).filename().string());
    }
    problems = base::write_file(*out, cell::row_text(fitted.value(), names));
    if (!problems.empty()) return refusal(problems);
    reply.written.emplace_back(*out);
  }
  return reply;
}

Json tested_json(const cell::TestedCell& tested) {
  Json::Object json{{"cell", tested.name}, {"file", tested.file}, {"line", tested.line}};
  if (tested.capacity) json.emplace_back("capacity_C", amount_json(*tested.capacity));
  if (tested.resistance) json.emplace_back("resistance_Ohm", amount_json(*tested.resistance));
  return json;
}

/// What the folder `cells` of the project holds.
Reply list(const Request& request) {
  const cell::CellFiles read = cell::read_cells(folder_of(request.folder) / "cells");
  Reply reply;
  Json::List tested;
  for (const cell::CellFile& file : read.files) {
    reply.lines.push_back({Tone::Strong, file.file});
    for (const cell::Remark& remark : file.remarks) {
      reply.lines.push_back({Tone::Plain, "    " + remark.text});
    }
  }
  for (const cell::TestedCell& one : read.tested) {
    reply.lines.push_back(
        {Tone::Plain, fmt::format("  {}: {}{}", one.name,
                                  one.capacity ? show(*one.capacity) : "capacity not told",
                                  one.resistance ? ", " + show(*one.resistance) : "")});
    tested.push_back(tested_json(one));
  }
  Json::List logs;
  for (const cell::Log& log : read.logs) {
    logs.push_back(Json::Object{{"cell", log.cell},
                                {"file", log.file},
                                {"samples", static_cast<long>(log.size())},
                                {"sections", static_cast<long>(log.sections.size())}});
  }
  reply.problems = read.problems();
  if (!reply.problems.empty()) reply.status = Status::NotMet;
  reply.json = Json::Object{{"tideover", version()},
                            {"verb", "cells"},
                            {"tested", std::move(tested)},
                            {"logs", std::move(logs)},
                            {"problems", problems_json(reply.problems)}};
  return reply;
}

Reply cells(const Request& request, base::Progress& progress) {
  const auto fitting = request.options.find("--fit");
  if (fitting != request.options.end() && !fitting->second.empty()) return fit(request, progress);
  return list(request);
}

}  // namespace

Verb cells_verb() {
  Verb verb{"cells", "read cell tests; fit a cell to its logs",
            "Reads the logs and tables in the project's folder `cells` and says what they hold. "
            "With --fit, fits one cell to its logs: capacity, rest voltage, resistances, warming, "
            "each with its error; --out writes it as a row of the shelf, for `tideover cell-run` "
            "or for a sheet: put it into the project as cells/fitted.toml.",
            true, cells};
  verb.options = {{"--fit", "FILE...", "logs of one cell"},
                  {"--out", "FILE", "where the fitted cell is written"},
                  {"--class", "NAME", "the shelf's cell it is of; else the nearest"},
                  {"--name", "NAME", "what the fitted cell is called; else `fitted`"}};
  return verb;
}

}  // namespace tideover::service
