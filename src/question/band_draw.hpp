/// One draw: the build with one set of values, run and judged.
#pragma once

#include <array>
#include <compare>
#include <string>
#include <utility>
#include <vector>

#include "question/band_inputs.hpp"
#include "question/trial.hpp"

namespace tideover::question {

/// A number that every draw comes to.
struct BandKey {
  enum class Sort { Carried, CutOff, Recharge, Margin, Extreme };
  Sort sort{};
  int under = 0;          ///< index of the circumstances; of a margin 0, the worst of all
  std::string part = {};  ///< of a margin or an extreme
  std::string name = {};  ///< of the rule, by its key; of the extreme: "output current, highest"
  auto operator<=>(const BandKey&) const = default;
};

/// Something that a draw meets or does not.
struct NeedKey {
  enum class Need {
    Outlast,
    Recharge,
    Service,  ///< no load restarts
    Life,
    NoHarm,  ///< no finding fails that can do harm
    All,     ///< all of these
  };
  Need need{};
  int under = 0;
  auto operator<=>(const NeedKey&) const = default;
};

/// A rule that a part or lead does not keep.
struct BrokenRule {
  std::string rule;  ///< its key
  std::string part;
  auto operator<=>(const BrokenRule&) const = default;
};

struct DrawOutcome {
  enum class Came {
    Through,
    Contradicting,  ///< values that no part can have together: not run
    Stuck,          ///< a run that could not be carried to its end: nothing but needs unmet
  };
  Came came = Came::Through;
  std::vector<std::pair<BandKey, double>> numbers_si;  ///< infinite: never
  std::vector<std::pair<NeedKey, bool>> needs;
  std::vector<BrokenRule> broken;  ///< each once
};

/// A rated quantity of a part, with its limit for the nominal values.
struct WatchedExtreme {
  std::string part;
  std::string name;  ///< "output current, highest"
  std::size_t channel = 0;
  bool is_highest = true;
  double limit_si = 0.0;
  quantity::Measure measure;
};

/// What is done with each draw of one build.
class BandTrial {
 public:
  BandTrial(const build::Build& build, run::Settings settings);

  /// Leaves the values in the piece. Empty once stop is asked for.
  [[nodiscard]] DrawOutcome carry_out(const build::Workpiece& piece, base::Progress& stop) const;

  [[nodiscard]] const build::Timeline& timeline() const { return timeline_; }
  /// Cells as they are in the middle of the ambient, worn at its cold end.
  [[nodiscard]] const std::array<run::Circumstances, 2>& circumstances() const {
    return circumstances_;
  }
  [[nodiscard]] const std::vector<WatchedExtreme>& watched() const { return watched_; }

 private:
  build::Timeline timeline_;
  std::array<run::Circumstances, 2> circumstances_;
  run::Settings settings_;
  std::vector<WatchedExtreme> watched_;
};

}  // namespace tideover::question
