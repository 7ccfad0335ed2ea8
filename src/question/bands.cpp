#include "question/bands.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include <fmt/format.h>

#include "base/contract.hpp"
#include "question/band_points.hpp"
#include "question/phrases.hpp"
#include "question/portion.hpp"
#include "run/batch.hpp"

namespace tideover::question {

using Sort = BandKey::Sort;

namespace {

/// First number of draws at which bands are looked at.
constexpr std::uint64_t first_look = 32;
/// How much of the progress goes to the draws where widths follow.
constexpr double draws_effort_share = 0.6;

/// Whether the bands have stood still since the number of draws was half of what it is.
class StillWatch {
 public:
  explicit StillWatch(const build::Needs& needs) : needs_(needs) {}

  [[nodiscard]] bool look(const BandTally& tally) {
    std::vector<double> now_s;
    std::vector<double> slack_s;
    for (const BandKey& key : main_times()) {
      const auto band = tally.band(key);
      if (!band) continue;
      const double asked_s = key.sort == Sort::Carried ? needs_.outlast.si() : needs_.recharge.si();
      const double slack = still_share * std::max(std::abs(band->p50.value_si), asked_s);
      for (const auto* quantile : {&band->p5, &band->p50, &band->p95}) {
        now_s.push_back(quantile->value_si);
        slack_s.push_back(slack);
      }
    }
    bool is_still = now_s.size() == before_s_.size();
    for (std::size_t k = 0; is_still && k < now_s.size(); ++k) {
      is_still = now_s[k] == before_s_[k] || std::abs(now_s[k] - before_s_[k]) <= slack_s[k];
    }
    before_s_ = std::move(now_s);
    return is_still;
  }

 private:
  const build::Needs& needs_;
  std::vector<double> before_s_;
};

/// Says how the band stands instead of what the batch says.
class Told final : public base::Progress {
 public:
  explicit Told(base::Progress& told) : told_(told) {}
  void report(double share, std::string_view) override { told_.report(share, words_); }
  [[nodiscard]] bool stop_asked() const override { return told_.stop_asked(); }

  void look(const BandTally& tally) {
    words_ = fmt::format("{}", counted(tally.counts().draws, "draw"));
    for (const int worn : {1, 0}) {
      const auto band = tally.band({Sort::Carried, worn});
      if (!band) continue;
      words_ += fmt::format(", carried for {} to {} so far{}",
                            show_time(quantity::Second::of_si(band->p5.value_si)),
                            show_time(quantity::Second::of_si(band->p95.value_si)),
                            worn == 1 ? " with worn cells" : "");
      return;
    }
  }

 private:
  base::Progress& told_;
  std::string words_ = "the first draws";
};

std::uint64_t draws_of_share(std::uint64_t draws, const BandSettings& settings) {
  return (draws + settings.of_shares - settings.share) / settings.of_shares;
}

bool may_stop_early(const BandSettings& settings) {
  return !settings.draws && settings.of_shares == 1;
}

Bands begin(const build::Build& build, const BandTrial& trial, const BandSettings& settings) {
  TIDEOVER_EXPECT(settings.share >= 1 && settings.share <= settings.of_shares, "a share of shares");
  Bands found{.inputs = band_inputs_of(build),
              .timeline = trial.timeline().name,
              .circumstances = trial.circumstances(),
              .watched = trial.watched(),
              .seed = settings.seed,
              .ended = settings.draws ? BandsEnded::AsAsked : BandsEnded::AtMost,
              .tally = {},
              .widths = {}};
  found.draws_meant = settings.draws.value_or(most_draws);
  if (found.inputs.count() == 0) {
    found.draws_meant = 1;
    found.ended = BandsEnded::StoodStill;
  }
  return found;
}

void draw(const build::Build& build, const BandTrial& trial, const BandSettings& settings,
          base::Progress& progress, Bands& found) {
  const BandPoints points(found.inputs.count(), settings.seed);
  const auto work = [&](build::Workpiece& piece, std::size_t number, base::Progress& stop) {
    const std::uint64_t draw = number * settings.of_shares + settings.share - 1;
    piece.take_back();
    set_values(found.inputs, points.draw_share(draw), piece);
    return trial.carry_out(piece, stop);
  };
  const std::uint64_t count = draws_of_share(found.draws_meant, settings);
  run::Batch<DrawOutcome> batch(build, count, work, {.threads = settings.threads});
  StillWatch watch(build.needs);
  Told told(progress);
  const auto take = [&](std::size_t number, DrawOutcome&& outcome) {
    found.tally.add(number * settings.of_shares + settings.share - 1, outcome);
    const std::uint64_t draws = found.tally.counts().draws;
    if (draws % replicates == 0) told.look(found.tally);
    const bool looks = draws >= first_look && std::has_single_bit(draws);
    if (!looks || !watch.look(found.tally) || !may_stop_early(settings)) return true;
    found.ended = BandsEnded::StoodStill;
    return false;
  };
  const std::size_t taken = batch.run(take, told);
  if (found.ended != BandsEnded::StoodStill && taken < count) found.ended = BandsEnded::Stopped;
  if (found.inputs.count() == 0 && taken < count) found.ended = BandsEnded::Stopped;
}

void add_widths(const build::Build& build, const BandTrial& trial, const BandSettings& settings,
                base::Progress& progress, Bands& found) {
  if (found.is_partial()) return;
  const std::uint64_t spent = settings.width_draws.value_or(found.tally.counts().draws);
  found.widths =
      width_shares(build, found.inputs, trial, found.tally,
                   {.seed = settings.seed, .draws = spent, .threads = settings.threads}, progress);
  if (progress.stop_asked()) found.ended = BandsEnded::Stopped;
}

}  // namespace

Bands bands(const build::Build& build, const BandSettings& settings, base::Progress& progress) {
  const BandTrial trial(build, settings.run);
  Bands found = begin(build, trial, settings);
  if (settings.of_shares > 1) {
    draw(build, trial, settings, progress, found);
    return found;
  }
  Portion first(progress, 0.0, draws_effort_share);
  draw(build, trial, settings, first, found);
  Portion second(progress, draws_effort_share, 1.0);
  add_widths(build, trial, settings, second, found);
  return found;
}

Bands bands_from(const build::Build& build, BandTally tally, const BandSettings& settings,
                 base::Progress& progress) {
  const BandTrial trial(build, settings.run);
  Bands found = begin(build, trial, settings);
  found.tally = std::move(tally);
  if (found.tally.counts().draws < found.draws_meant) found.ended = BandsEnded::Stopped;
  add_widths(build, trial, settings, progress, found);
  return found;
}

}  // namespace tideover::question
