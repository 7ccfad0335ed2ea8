/// What a cell tester or a data logger wrote of one cell, in columns of equal length.
///
/// One sign everywhere: a current that charges the cell is positive, as in part/pack. Whoever
/// reads a file finds out its sign and says so (read_log.hpp).
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tideover::cell {

/// Samples that follow each other without a break: time goes up, and nothing happened between two
/// of them that the log does not show.
struct Section {
  enum class Begins {
    Log,      ///< the first
    Reset,    ///< time or counter started anew
    Gap,      ///< samples are missing; the counter, if there is one, went on
    Heading,  ///< the headings were repeated
    Label,    ///< a column that names the run has another word
  };
  std::size_t first = 0;
  std::size_t end = 0;  ///< one past the last
  Begins begins = Begins::Log;
  std::string label = {};  ///< of the run, if a column names it: "start1"
};

struct Log {
  std::string cell;  ///< its name: of a column, else of the file
  std::string file;
  std::vector<double> time_s;         ///< rises within a section
  std::vector<double> voltage_v;      ///< at the terminals
  std::vector<double> current_a;      ///< positive: charges
  std::vector<double> temperature_c;  ///< of the case [degC]; empty if not logged
  std::vector<double> ambient_c;      ///< of the air [degC]; empty if not logged
  /// Charge put in less charge taken out [C], by the logger's own counter; empty if not logged. It
  /// goes on over gaps, and starts anew at a reset.
  std::vector<double> counter_c;
  std::vector<Section> sections;  ///< in order, without holes; at least one if there are samples

  [[nodiscard]] std::size_t size() const { return time_s.size(); }
};

}  // namespace tideover::cell
