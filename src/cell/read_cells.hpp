/// Everything that is known of a lot: the files of the folder `cells`.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "cell/log.hpp"
#include "cell/read_log.hpp"
#include "cell/tested_cell.hpp"

namespace tideover::cell {

/// One file of the folder, and what became of it.
struct CellFile {
  std::string file;
  enum class Holds { Logs, Table, Nothing } holds = Holds::Nothing;
  std::vector<Remark> remarks;
  base::Problems problems;
};

/// A cell may stand in several logs and in the table as well; whoever judges the lot brings them
/// together by name.
struct CellFiles {
  std::vector<CellFile> files;  ///< by name
  std::vector<Log> logs;        ///< in the order of the files
  std::vector<TestedCell> tested;

  /// Of all files, in order. What could be read stands beside them.
  [[nodiscard]] base::Problems problems() const;
};

/// One file: a log if its headings make one, else a table.
void read_cell_file(const std::filesystem::path& path, CellFiles& into);

/// Every `*.csv`, `*.tsv` and `*.txt` of `folder`, not of folders inside it. A file that cannot be
/// read is a problem and the others stand. A cell that two tables name stands where it stood first,
/// with the voltages of both.
[[nodiscard]] CellFiles read_cells(const std::filesystem::path& folder);

}  // namespace tideover::cell
