/// From the bare numbers of one cell to its log: units that no heading told, the current's sign,
/// the counter, the sections.
#pragma once

#include <string>
#include <vector>

#include "cell/log.hpp"
#include "cell/log_rows.hpp"
#include "cell/read_log.hpp"

namespace tideover::cell {

/// What of the file bears on every cell in it.
struct FileFacts {
  const LogText& text;
  const RawRows& rows;
  std::string file;
};

/// Takes the columns out of `raw`. Remarks name the cell.
[[nodiscard]] Log judge_log(RawLog& raw, const FileFacts& facts, std::vector<Remark>& remarks);

}  // namespace tideover::cell
