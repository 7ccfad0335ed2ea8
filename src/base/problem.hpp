/// What is wrong with something the user gave us: where, what, and what to do about it.
#pragma once

#include <string>
#include <vector>

namespace tideover::base {

/// A stretch of one line in a file. Lines and columns count from 1; columns count code points.
/// A place with line 0 means the file (or the call) as a whole.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
  int length = 1;       ///< code points to underline
  std::string excerpt;  ///< the line itself, without its line end
};

/// One message. `text` says what is wrong, `remedy` what was expected or the nearest valid word.
struct Problem {
  Place place;
  std::string text;
  std::string remedy;
};

/// All problems of one reading; a reader collects and goes on, and its caller runs nothing when
/// any stands here.
using Problems = std::vector<Problem>;

/// Several lines: `file:line:column: text`, the line, a caret under the place, the remedy.
/// Tabs of the excerpt are kept as one column; control bytes are shown as `?`.
[[nodiscard]] std::string show(const Problem& problem);
[[nodiscard]] std::string show(const Problems& problems);

}  // namespace tideover::base
