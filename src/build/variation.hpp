/// A variation: what bands, the fault table, `--set`, calibration and sizing do to a build. Values
/// are set, parts fail, wiring is damaged; all of it is taken back for the next one.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "build/build.hpp"
#include "build/parameter.hpp"

namespace tideover::build {

/// The value at `path` (build/parameter.hpp) is exactly this.
struct Setting {
  std::string path;
  double value_si = 0.0;  ///< in the unit of the parameter; temperatures are kelvin
};

/// The part named fails in one of its own ways.
struct Failure {
  std::string part;
  std::string mode;
  bool arises_later = false;  ///< see Defect; only what the mode damages, not what it alters
};

using Alteration = std::variant<Setting, Failure, Defect>;

struct Variation {
  std::string words;  ///< "changeover: work contact welded"
  std::vector<Alteration> alterations = {};
};

/// What may be wrong with a lead, and a mode of a part as the defects it makes of the wiring.
[[nodiscard]] Defect lead_open(const std::string& lead);
[[nodiscard]] Defect lead_loose(const std::string& lead, quantity::Ohm resistance);
[[nodiscard]] Defect bridge_between(TerminalName terminal, TerminalName other,
                                    quantity::Ohm resistance);
[[nodiscard]] std::vector<Defect> defects_of(const part::Part& part, const part::FailureMode& mode);

/// A build on the bench: a copy made once, which takes any number of variations, one at a time.
class Workpiece {
 public:
  explicit Workpiece(const Build& original);
  Workpiece(const Workpiece&) = delete;
  Workpiece& operator=(const Workpiece&) = delete;

  [[nodiscard]] const Build& build() const { return build_; }
  /// Amounts of build(), in its order.
  [[nodiscard]] const std::vector<Parameter>& parameters() const { return parameters_; }

  /// Takes back what was done before, then does this. Paths, parts and modes must exist.
  void vary(const Variation& variation);
  /// Sets one more value; `index` into parameters(). As quick as an assignment.
  void set(std::size_t index, double value_si);
  void take_back();

 private:
  void alter(const Setting& setting);
  void alter(const Failure& failure);
  void alter(const Defect& defect);

  const Build& original_;
  Build build_;
  std::vector<Parameter> parameters_;
  std::vector<std::pair<std::size_t, quantity::Amount>> set_;  ///< index, and what stood there
  std::vector<std::pair<std::size_t, std::unique_ptr<part::Part>>> failed_;  ///< sound parts
};

}  // namespace tideover::build
