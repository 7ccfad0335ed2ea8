/// One timeline run under one set of circumstances, and what became of its outages.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "question/outage.hpp"
#include "run/run.hpp"

namespace tideover::question {

struct Trial {
  /// "cells as they are, 18 degC"; several timelines: "storm, cells as ..."; empty: not tried.
  std::string words;
  run::Circumstances circumstances;
  run::Record record;
  std::vector<Outage> outages;

  [[nodiscard]] bool was_tried() const { return !words.empty(); }
  /// The outage in which a load goes soonest; if none goes, the longest. Null if the run never got
  /// to one.
  [[nodiscard]] const Outage* judged_outage() const;
  /// Whether the run got to its end: neither stopped by the user nor stuck, books closed.
  [[nodiscard]] bool is_whole() const;
};

/// Whether more can be learnt from `a` than from `b`: a load goes, and sooner; or, where none
/// goes, it is longer.
[[nodiscard]] bool tells_more(const Outage& a, const Outage& b);

/// As is in the middle of the stated ambient, worn at its cold end, as is at its hot end.
[[nodiscard]] std::array<run::Circumstances, 3> circumstances_of(const build::Build& build);
/// All timelines of the sheet, or the usual one where there is none.
[[nodiscard]] std::vector<build::Timeline> timelines_of(const build::Build& build);

/// "cells as they are, 18 degC", "cells at the end of their life, 2 degC".
[[nodiscard]] std::string in_words(const run::Circumstances& circumstances);
[[nodiscard]] bool are_same(const run::Circumstances& a, const run::Circumstances& b);

[[nodiscard]] Trial trial_of(run::Record record, const run::Circumstances& circumstances);

/// The lowest or the highest value that one channel came to in several trials.
struct Reached {
  double value_si = 0.0;
  quantity::Second at;
  std::size_t trial = 0;
};
struct Extremes {
  run::ChannelInfo channel;
  Reached lowest;
  Reached highest;
};
/// Over all `trials`, whose records have the same channels in the same order; empty records (of
/// runs that never began) are passed over.
[[nodiscard]] std::vector<Extremes> extremes_of(const std::vector<const Trial*>& trials);

}  // namespace tideover::question
