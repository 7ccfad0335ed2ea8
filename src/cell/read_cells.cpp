#include "cell/read_cells.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <system_error>
#include <utility>

#include "base/file.hpp"
#include "base/text.hpp"
#include "cell/read_table.hpp"

namespace tideover::cell {
namespace {

namespace fs = std::filesystem;

bool is_named_as_log(const fs::path& path) {
  constexpr std::array<std::string_view, 3> endings{".csv", ".tsv", ".txt"};
  const std::string ending = base::lower_case(path.extension().string());
  return std::ranges::find(endings, ending) != endings.end();
}

/// A later table adds to what an earlier one said of the same cell.
void add_tested(std::vector<TestedCell>& tested, TestedCell cell) {
  const auto known = std::ranges::find(tested, cell.name, &TestedCell::name);
  if (known == tested.end()) {
    tested.push_back(std::move(cell));
    return;
  }
  if (cell.capacity) known->capacity = std::move(cell.capacity);
  if (cell.resistance) known->resistance = std::move(cell.resistance);
  std::ranges::move(cell.rest_voltages, std::back_inserter(known->rest_voltages));
  std::ranges::stable_sort(known->rest_voltages, {}, &RestVoltage::day);
}

base::Problem folder_problem(const fs::path& folder, std::string text, std::string remedy) {
  base::Problem problem{{}, std::move(text), std::move(remedy)};
  problem.place.file = folder.string();
  return problem;
}

}  // namespace

base::Problems CellFiles::problems() const {
  base::Problems all;
  for (const CellFile& file : files) std::ranges::copy(file.problems, std::back_inserter(all));
  return all;
}

void read_cell_file(const fs::path& path, CellFiles& into) {
  CellFile& file = into.files.emplace_back();
  file.file = path.string();
  const auto text = base::read_file(path, largest_log_bytes);
  if (!text) {
    file.problems = text.problems();
    return;
  }
  if (is_table(text.value())) {
    TableReading table = read_table(text.value(), file.file);
    file.holds = table.cells.empty() ? CellFile::Holds::Nothing : CellFile::Holds::Table;
    file.remarks = std::move(table.remarks);
    file.problems = std::move(table.problems);
    for (TestedCell& cell : table.cells) add_tested(into.tested, std::move(cell));
    return;
  }
  LogReading log = read_log(text.value(), file.file);
  file.holds = log.logs.empty() ? CellFile::Holds::Nothing : CellFile::Holds::Logs;
  file.remarks = std::move(log.remarks);
  file.problems = std::move(log.problems);
  std::ranges::move(log.logs, std::back_inserter(into.logs));
}

CellFiles read_cells(const fs::path& folder) {
  CellFiles cells;
  std::vector<fs::path> paths;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    std::error_code unknown;
    if (is_named_as_log(entry->path()) && !entry->is_directory(unknown))
      paths.push_back(entry->path());
  }
  std::ranges::sort(paths);
  for (const fs::path& path : paths) read_cell_file(path, cells);
  if (error || paths.empty()) {
    CellFile& none = cells.files.emplace_back();
    none.file = folder.string();
    none.problems.push_back(folder_problem(
        folder, error ? "cannot read the folder: " + error.message() : "no logs and no tables",
        "Put the testers' logs and a table of cells there, as *.csv."));
  }
  return cells;
}

}  // namespace tideover::cell
