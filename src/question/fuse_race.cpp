#include "question/fuse_race.hpp"

#include <algorithm>
#include <cmath>

#include "part/fuse/fuse_band.hpp"
#include "question/current_range.hpp"

namespace tideover::question {

using part::FuseBand;
using quantity::Ampere;
using quantity::AmpereSquaredSecond;
using quantity::Second;

namespace {

/// Currents per range beside the corners of both bands, between which their edges are nearly
/// straight: enough for the little they bend.
constexpr int steps = 160;
/// How near a turn-over is found, as a share of its current.
constexpr double nearness = 1e-6;
/// What is sure over less than this share of a current is within what the curves are laid to, such
/// as which of two begins to open first just above what both carry.
constexpr double least_width = 0.01;

class Race {
 public:
  Race(const part::Fuse& before, const part::Fuse& behind) : before_(before), behind_(behind) {}

  std::optional<AmpereSquaredSecond> lets_through(Ampere current) const {
    return integral(current, behind_.latest(current));
  }
  std::optional<AmpereSquaredSecond> melts_from(Ampere current) const {
    return integral(current, before_.earliest(current));
  }

  std::vector<RaceStretch> stretches(Ampere from, Ampere to) const {
    const std::vector<Ampere> all = currents(from, to);
    std::vector<RaceStretch> found;
    for (std::size_t k = 1; k < all.size(); ++k) {
      cover(all[k - 1], first_at(all[k - 1]), all[k], first_at(all[k]), found);
    }
    std::vector<RaceStretch> kept;
    for (std::size_t k = 0; k < found.size(); ++k) {
      const bool is_inside = k > 0 && k + 1 < found.size();
      if (is_inside && found[k].to < (1.0 + least_width) * found[k].from) {
        found[k].first = First::Uncertain;
      }
      add(found[k], kept);
    }
    return kept;
  }

 private:
  First first_at(Ampere current) const {
    const auto before_from = before_.earliest(current);
    const auto behind_from = behind_.earliest(current);
    if (!before_from) return behind_from ? First::Behind : First::None;
    if (!behind_from) return First::Before;
    const auto before_until = before_.latest(current);
    const auto behind_until = behind_.latest(current);
    if (behind_until && *behind_until < *before_from) return First::Behind;
    if (before_until && *before_until < *behind_from) return First::Before;
    return First::Uncertain;
  }

  std::vector<Ampere> currents(Ampere from, Ampere to) const {
    std::vector<Ampere> corners = before_.corners();
    corners.insert(corners.end(), behind_.corners().begin(), behind_.corners().end());
    return currents_between(from, to, steps, corners);
  }

  void cover(Ampere from, First at_from, Ampere to, First at_to,
             std::vector<RaceStretch>& stretches) const {
    const bool is_one = at_from == at_to;
    if (is_one || to <= (1.0 + nearness) * from) {
      add({from, to, is_one ? at_from : at_to}, stretches);
      return;
    }
    const Ampere middle = std::sqrt((to / from).si()) * from;
    const First at_middle = first_at(middle);
    cover(from, at_from, middle, at_middle, stretches);
    cover(middle, at_middle, to, at_to, stretches);
  }

  static void add(const RaceStretch& next, std::vector<RaceStretch>& stretches) {
    if (!stretches.empty() && stretches.back().first == next.first) {
      stretches.back().to = next.to;
    } else {
      stretches.push_back(next);
    }
  }
  static std::optional<AmpereSquaredSecond> integral(Ampere current, std::optional<Second> time) {
    if (!time) return std::nullopt;
    return current * current * *time;
  }

  FuseBand before_;
  FuseBand behind_;
};

}  // namespace

bool FuseRace::is_selective() const {
  return std::ranges::all_of(stretches, [](const RaceStretch& one) {
    return one.first == First::Behind || one.first == First::None;
  });
}

bool FuseRace::is_the_wrong_way() const {
  return std::ranges::any_of(stretches,
                             [](const RaceStretch& one) { return one.first == First::Before; });
}

FuseRace fuse_race(const part::Fuse& before, const part::Fuse& behind, Ampere highest) {
  FuseRace race{.before = &before, .behind = &behind, .highest = highest};
  const Race both(before, behind);
  race.lets_through = both.lets_through(highest);
  race.melts_from = both.melts_from(highest);
  const Ampere from = std::max(before.rated.nominal(), behind.rated.nominal());
  if (highest <= from) return race;
  race.stretches = both.stretches(from, highest);
  return race;
}

}  // namespace tideover::question
