#include "question/lead_cover.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "build/parts_of.hpp"
#include "part/fuse/fuse_band.hpp"
#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"
#include "question/current_range.hpp"

namespace tideover::question {

using build::Lead;
using build::TerminalName;
using finding::Feeding;
using finding::GuardFeed;
using finding::LeadGuard;
using finding::Source;
using part::ProtectionBoard;
using quantity::Ampere;
using quantity::Second;

namespace {

/// Currents looked at between the least and the most, beside the corners of the standing line.
constexpr int steps = 24;

/// What is less than this opens and warms nothing.
constexpr Ampere least_current = Ampere::of_si(1e-3);

/// When a board has cut a current at the latest; nothing where it need not. Only what it is
/// adjusted to counts: that it can break the current is taken for granted.
std::optional<Second> board_opens(const ProtectionBoard& board, Ampere current) {
  std::optional<Second> opens;
  if (current >= board.discharge_over_current.high()) {
    opens = board.discharge_over_current_delay.high();
  }
  if (current >= board.short_circuit.high()) {
    const Second quick = board.short_circuit_delay.high();
    opens = opens ? std::min(*opens, quick) : quick;
  }
  return opens;
}

/// How a device copes with all currents of a short circuit: at the one where the lead comes nearest
/// to not standing it, or at the least where it always stands it.
struct Trial {
  Ampere at;
  std::optional<Second> opens;
  std::optional<Second> stands;
  bool is_in_time = true;
};

class Covering {
 public:
  Covering(const build::Build& build, const Feeding& feeding)
      : build_(build), feeding_(feeding), air_(build.needs.ambient.high()) {
    for (const auto* fuse : build::parts_of<part::Fuse>(build)) bands_.try_emplace(fuse, *fuse);
  }

  LeadCover of(const LeadGuard& guard) const {
    LeadCover cover{.lead = guard.lead,
                    .is_return = guard.is_return,
                    .shorts = {},
                    .carries = guard.lead->wire.ampacity(air_).current,
                    .withstands = guard.lead->wire.withstand(),
                    .for_good = std::nullopt,
                    .unfused = guard.unfused};
    if (guard.most_a != finding::unlimited_a) cover.for_good = Ampere::of_si(guard.most_a);
    cover.shorts = worst_of_each(guard);
    cover.protection = protection_of(cover);
    return cover;
  }

 private:
  /// Each source once, the one that decides first: of a return at the user that is worst. Where
  /// leads make a ring a source comes to both ends, and the nearer one is worse.
  std::vector<LeadShort> worst_of_each(const LeadGuard& guard) const {
    std::vector<LeadShort> all;
    for (const GuardFeed& feed : guard.feeds) all.push_back(judged(guard, feed));
    std::ranges::stable_sort(all, {}, [](const LeadShort& one) {
      return std::tuple(one.guard != Guard::Nothing, one.is_in_time, one.guard != Guard::Board,
                        one.guard != Guard::Fuse, -one.current.highest);
    });
    std::vector<LeadShort> kept;
    for (const LeadShort& one : all) {
      if (std::ranges::find(kept, one.plus, &LeadShort::plus) == kept.end()) kept.push_back(one);
    }
    return kept;
  }

  LeadShort judged(const LeadGuard& guard, const GuardFeed& feed) const {
    const Source& source = *feed.feed.source;
    const Lead& lead = *guard.lead;
    LeadShort one{.source = source.part, .plus = source.plus};
    one.current = guard.is_return ? finding::short_at(feeding_, source, feed.at)
                                  : finding::short_along(feeding_, source, lead);
    const auto fuses = feeding_.fuses_in_the_way(source, feed.at);
    const Trial by_fuse =
        tried(lead, one.current, [&](Ampere current) { return fuse_opens(fuses, current).second; });
    const auto [quickest, sure] = fuse_opens(fuses, one.current.lowest);
    if (quickest != nullptr && by_fuse.is_in_time && (sure || !source.limit)) {
      return taken(one, Guard::Fuse, quickest, by_fuse);
    }
    if (source.limit) {
      const Trial never = tried(lead, one.current, [](Ampere) { return std::nullopt; });
      return taken(one, Guard::Limit, source.part, never);
    }
    if (const ProtectionBoard* const board = board_behind(source, lead)) {
      const Trial by_board =
          tried(lead, one.current, [&](Ampere current) { return board_opens(*board, current); });
      if (by_board.is_in_time || quickest == nullptr)
        return taken(one, Guard::Board, board, by_board);
    }
    if (quickest != nullptr) return taken(one, Guard::Fuse, quickest, by_fuse);
    const Trial nothing{.at = one.current.highest,
                        .opens = std::nullopt,
                        .stands = finding::standing_time(lead.wire, one.current.highest, air_),
                        .is_in_time = false};
    return taken(one, Guard::Nothing, nullptr, nothing);
  }

  static LeadShort taken(LeadShort one, Guard guard, const part::Part* device, const Trial& trial) {
    one.guard = guard;
    one.device = device;
    one.judged_at = trial.at;
    one.opens = trial.opens;
    one.stands = trial.stands;
    one.is_in_time = trial.is_in_time;
    return one;
  }

  /// The one of several in a row that has surely opened first, and when.
  std::pair<const part::Fuse*, std::optional<Second>> fuse_opens(
      const std::vector<const part::Fuse*>& fuses, Ampere current) const {
    const part::Fuse* first = nullptr;
    std::optional<Second> opens;
    for (const part::Fuse* fuse : fuses) {
      const auto time = bands_.at(fuse).latest(current);
      const bool is_smaller = first == nullptr || fuse->rated.si() < first->rated.si();
      if (time && opens ? *time < *opens : time.has_value() || (!opens && is_smaller)) {
        first = fuse;
        opens = time;
      }
    }
    return {first, opens};
  }

  template <class Opens>
  Trial tried(const Lead& lead, const finding::ShortCurrent& range, const Opens& opens) const {
    std::optional<Trial> worst;
    const auto corners = finding::standing_corners(lead.wire, air_);
    double worst_share = 1.0;
    const Ampere to = std::max(range.highest, least_current);
    const Ampere from = std::clamp(range.lowest, least_current, to);
    for (const Ampere current : currents_between(from, to, steps, corners)) {
      Trial trial{.at = current,
                  .opens = opens(current),
                  .stands = finding::standing_time(lead.wire, current, air_)};
      const double share = !trial.stands  ? 0.0
                           : !trial.opens ? HUGE_VAL
                                          : (*trial.opens / *trial.stands).si();
      trial.is_in_time = share <= 1.0;
      if (worst && share <= worst_share) continue;
      if (trial.is_in_time && worst) continue;
      worst = trial;
      worst_share = std::max(1.0, share);
    }
    return *worst;
  }

  /// A board stands in the pack's minus: a short circuit to the common behind it runs through it,
  /// one between leads that begin at the cells does not.
  const ProtectionBoard* board_behind(const Source& source, const Lead& lead) const {
    if (dynamic_cast<const part::Pack*>(source.part) == nullptr) return nullptr;
    for (const auto* board : build::parts_of<ProtectionBoard>(build_)) {
      const TerminalName common{board->name, "p_minus"};
      const bool is_between =
          feeding_.returns(source, common) && !feeding_.returns(source, common, board);
      if (is_between && !is_at_cells(*source.part, *board, lead)) return board;
    }
    return nullptr;
  }

  bool is_at_cells(const part::Part& pack, const ProtectionBoard& board, const Lead& lead) const {
    const auto touches = [&](const part::Part& part, const part::Terminal& terminal) {
      const auto point = feeding_.ways().point_of({part.name, terminal.name});
      return point && (point == feeding_.ways().point_of(lead.from) ||
                       point == feeding_.ways().point_of(lead.to));
    };
    for (const part::Terminal& terminal : pack.terminals()) {
      if (touches(pack, terminal)) return true;
    }
    for (const part::Terminal& terminal : board.terminals()) {
      if (terminal.name != "p_minus" && touches(board, terminal)) return true;
    }
    return false;
  }

  static Protection protection_of(const LeadCover& cover) {
    const auto any = [&](auto is_meant) { return std::ranges::any_of(cover.shorts, is_meant); };
    const auto by = [](Guard guard) {
      return [guard](const LeadShort& one) { return one.guard == guard; };
    };
    if (any(by(Guard::Nothing))) return Protection::None;
    if (any([](const LeadShort& one) { return !one.is_in_time && one.guard != Guard::Limit; })) {
      return Protection::Late;
    }
    if (cover.for_good && *cover.for_good > cover.carries) return Protection::Thin;
    if (any(by(Guard::Board))) return Protection::Board;
    return any(by(Guard::Fuse)) ? Protection::Fuse : Protection::Limit;
  }

  const build::Build& build_;
  const Feeding& feeding_;
  quantity::Temperature air_;
  std::map<const part::Fuse*, part::FuseBand> bands_;
};

}  // namespace

std::vector<LeadCover> lead_covers(const build::Build& build, const Feeding& feeding) {
  const Covering covering(build, feeding);
  std::vector<LeadCover> covers;
  for (const LeadGuard& guard : finding::lead_guards(build, feeding)) {
    covers.push_back(covering.of(guard));
  }
  std::ranges::stable_sort(covers, {}, [](const LeadCover& one) {
    const bool is_bare = one.protection == Protection::None;
    const Second stands = one.shorts.front().stands.value_or(finding::overload_until);
    return std::tuple(one.protection, is_bare && one.is_short(), is_bare ? stands : Second{});
  });
  return covers;
}

}  // namespace tideover::question
