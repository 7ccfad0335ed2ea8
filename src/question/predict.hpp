/// The first question: will it carry its loads through the outage, for how long, and what gives?
#pragma once

#include <string>
#include <vector>

#include "finding/lead_loss.hpp"
#include "question/standby.hpp"
#include "question/trial.hpp"
#include "question/verdict.hpp"

namespace tideover::question {

struct Prediction {
  /// The timeline that leads, because a load goes soonest in it, under three circumstances: cells
  /// as they are in the middle of the stated ambient; cells at the end of their life at its cold
  /// end; cells as they are at its hot end. The record of `usual` keeps all its samples.
  Trial usual;
  Trial worn;
  Trial hot;
  /// The other timelines of the sheet in its order, each under the same three.
  std::vector<Trial> others;

  Standby standby;
  std::vector<HeadRoom> head_room;       ///< of the usual trial
  std::vector<finding::LeadLoss> leads;  ///< of the usual trial
  std::vector<finding::WayLoss> ways;    ///< of the usual trial
  Keeping dark;                          ///< after the cut-off, if the mains stays away
  Keeping storage;                       ///< full, adapters and loads off
  bool can_be_switched_off = false;      ///< there is a switch; else `storage` is not tried
  Verdict verdict;
  bool is_partial = false;  ///< stopped by the user before all runs were done
  bool is_quick = false;    ///< a quick look (question/glance.hpp): the usual trial alone

  [[nodiscard]] std::vector<const Trial*> judged() const { return {&usual, &worn, &hot}; }
  [[nodiscard]] std::vector<const Trial*> trials() const;
};

/// Whether the outage of `timeline` shows of itself if the needs are met: all adapters lose the
/// mains until loads are lost or the pack is cut off, or for at least as long as is asked.
[[nodiscard]] bool can_judge(const build::Timeline& timeline, const build::Needs& needs);

/// Runs every timeline of the sheet, or the usual one (run/run.hpp) where there is none, two at a
/// time, and judges all of them.
[[nodiscard]] Prediction predict(const build::Build& build, const run::Settings& settings,
                                 base::Progress& progress);

}  // namespace tideover::question
