/// What a cell tester or a data logger wrote of one cell, in columns of equal length.
///
/// One sign everywhere: a current that charges the cell is positive, as in part/pack. Whoever
/// reads a file finds out its sign and says so (read_log.hpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
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
  int line = 0;            ///< of the file, where its first sample stands; from 1
};

/// How the current runs from one sample to the next.
enum class Between {
  Straight,  ///< in a straight line
  Before,    ///< a step lies right behind the earlier sample: the later one's current holds for all
             ///< the time between; smaller changes run in a straight line
};

struct Log {
  std::string cell;  ///< its name: of a column, else of the file
  std::string file;
  std::vector<double> time_s;         ///< never falls within a section; equal at an edge
  std::vector<double> voltage_v;      ///< at the terminals
  std::vector<double> current_a;      ///< positive: charges
  std::vector<double> temperature_c;  ///< of the case [degC]; empty if not logged
  std::vector<double> ambient_c;      ///< of the air [degC]; empty if not logged
  /// Mean current from sample k - 1 to sample k of one section.
  [[nodiscard]] double mean_current_a(const Log& log, std::size_t k);

  /// Charge put in less charge taken out [C], by the logger's own counter; empty if not logged. It
  /// goes on over gaps, and starts anew at a reset.
  std::vector<double> counter_c;
  Between current_between = Between::Straight;  ///< found from the counter; else as assumed
  double step_a = 0.0;  ///< a change of the current by more than this is a step
  /// Where the file tells the date: seconds from 1970-01-01 to time 0, by the logger's own clock.
  std::optional<std::int64_t> clock_of_zero_s;
  std::vector<Section> sections;  ///< in order, without holes; at least one if there are samples

  [[nodiscard]] std::size_t size() const { return time_s.size(); }
};

/// Mean current from sample k - 1 to sample k of one section.
[[nodiscard]] double mean_current_a(const Log& log, std::size_t k);

/// Charge put in from sample `first` to sample `last` of one section [C], by the current.
[[nodiscard]] double charge_between_as(const Log& log, std::size_t first, std::size_t last);

}  // namespace tideover::cell
