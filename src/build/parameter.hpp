/// Every amount of a build under a stable path: "pack.cell.capacity", "sea.profile.2.draws",
/// "leads.sea_supply.length", "needs.outlast". Bands, faults, `--set` and the page name values so.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "build/build.hpp"
#include "part/read_fields.hpp"

namespace tideover::build {

/// Points into the build it was taken from, which must outlive it and keep its parts and leads.
struct Parameter {
  std::string path;
  const part::Field* field = nullptr;        ///< what may be said about it
  const part::AmountField* range = nullptr;  ///< its unit and physical range
  quantity::Amount* amount = nullptr;

  [[nodiscard]] bool has_tolerance() const { return amount->low_si < amount->high_si; }
};

/// In the order of the sheet: needs, parts, leads. Items of a list count from 1.
[[nodiscard]] std::vector<Parameter> parameters_of(Build& build);

/// The parameter at `path`. The table a value stands in may be left out where no other value of
/// that part has its name: "pack.capacity". Null if there is none.
[[nodiscard]] const Parameter* find_parameter(const std::vector<Parameter>& all,
                                              std::string_view path);

/// Does what `pack.cell.capacity = "3 Ah"` in the sheet would do: value, tolerance, count, word or
/// yes and no, with the reader's own checks. `assignment` is "pack.cell.capacity=3 Ah". Values that
/// would change a part's terminals are refused, as is what contradicts its other values. The build
/// is as it was, or half changed, after a problem.
[[nodiscard]] base::Problems set_value(Build& build, const std::string& assignment,
                                       const part::Stock& stock);

}  // namespace tideover::build
