#include "finding/lead_guard.hpp"

#include <algorithm>

#include "build/parts_of.hpp"
#include "part/protection_board/protection_board.hpp"

namespace tideover::finding {

using build::Lead;
using build::TerminalName;
using quantity::Metre;

namespace {

bool is_same_limit(const Feed& a, const Feed& b) {
  return a.fuse != nullptr ? a.fuse == b.fuse : b.fuse == nullptr && a.source == b.source;
}

/// The sources of one pack and those behind one fuse count once.
std::vector<Feed> without_doubles(const std::vector<Feed>& feeds) {
  std::vector<Feed> kept;
  for (const Feed& feed : feeds) {
    if (std::ranges::none_of(kept, [&](const Feed& one) { return is_same_limit(one, feed); })) {
      kept.push_back(feed);
    }
  }
  return kept;
}

/// All feeds at once, and the largest of them.
struct Together {
  double all_a = 0.0;
  Feed worst;
};

Together together(const std::vector<Feed>& feeds) {
  Together sum{.worst = feeds.front()};
  for (const Feed& feed : feeds) {
    sum.all_a += feed.most_a;
    if (feed.most_a > sum.worst.most_a) sum.worst = feed;
  }
  return sum;
}

/// Of the sources that come through a fuse alone, one that does not limit itself, if there is one.
const Source* strongest_through(const std::vector<Feed>& all, const std::vector<Feed>& others) {
  const Source* found = all.front().source;
  for (const Feed& feed : all) {
    const bool comes_elsewhere =
        std::ranges::find(others, feed.source, &Feed::source) != others.end();
    if (!comes_elsewhere && !feed.source->limit) found = feed.source;
  }
  return found;
}

class Guarding {
 public:
  Guarding(const build::Build& build, const Feeding& feeding) : build_(build), feeding_(feeding) {}

  std::optional<LeadGuard> of(const Lead& lead) const {
    LeadGuard guard{.lead = &lead};
    take_feeds(lead, lead.from, guard);
    take_feeds(lead, lead.to, guard);
    if (guard.worst.source == nullptr) take_returns(lead, guard);
    if (guard.worst.source == nullptr) return std::nullopt;
    return guard;
  }

 private:
  /// At the end of a lead, without what comes through the lead itself.
  void take_feeds(const Lead& lead, const TerminalName& end, LeadGuard& guard) const {
    const std::vector<Feed> all = feeding_.feeds(end, &lead);
    if (all.empty()) return;
    for (const Feed& feed : all) guard.feeds.push_back({feed, end});
    const std::vector<Feed> feeds = without_doubles(all);
    Together most = together(feeds);
    // What comes through one fuse is no more than that, however many feed it.
    for (const part::Fuse* fuse : parts_of<part::Fuse>(build_)) {
      auto rest = without_doubles(feeding_.feeds(end, {&lead, fuse}));
      rest.push_back({strongest_through(feeds, rest), fuse->rated.si(), fuse});
      const Together other = together(rest);
      if (other.all_a < most.all_a) most = other;
    }
    if (most.all_a <= guard.most_a) return;
    guard.most_a = most.all_a;
    guard.worst = most.worst;
    guard.at = end;
    if (!most.worst.is_unlimited()) return;
    guard.unfused =
        lead.wire.length.nominal() + feeding_.unfused(*most.worst.source, end).value_or(Metre{});
  }

  void take_returns(const Lead& lead, LeadGuard& guard) const {
    for (const Source& source : feeding_.sources()) {
      if (source.is_through || !feeding_.returns(source, lead.from)) continue;
      for (const auto& part : build_.parts) {
        if (returns_through(source, *part, lead)) take_user(source, *part, guard);
      }
    }
  }

  /// One of the part's minus terminals is cut off from the source's minus without the lead.
  bool returns_through(const Source& source, const part::Part& part, const Lead& lead) const {
    // What it takes at its plus is for measuring.
    if (dynamic_cast<const part::ProtectionBoard*>(&part) != nullptr) return false;
    return std::ranges::any_of(part.terminals(), [&](const part::Terminal& terminal) {
      const TerminalName name{part.name, terminal.name};
      return terminal.role == part::Role::Minus && feeding_.returns(source, name) &&
             !feeding_.returns(source, name, &lead);
    });
  }

  void take_user(const Source& source, const part::Part& part, LeadGuard& guard) const {
    for (const part::Terminal& terminal : part.terminals()) {
      if (terminal.role != part::Role::Plus) continue;
      const TerminalName name{part.name, terminal.name};
      if (name == source.plus) continue;
      const auto feed = feeding_.feed(source, name);
      if (!feed) continue;
      guard.feeds.push_back({*feed, name});
      if (feed->most_a <= guard.most_a) continue;
      guard.is_return = true;
      guard.most_a = feed->most_a;
      guard.worst = *feed;
      guard.at = name;
      if (feed->is_unlimited()) guard.unfused = guard.lead->wire.length.nominal();
    }
  }

  const build::Build& build_;
  const Feeding& feeding_;
};

}  // namespace

std::vector<LeadGuard> lead_guards(const build::Build& build, const Feeding& feeding) {
  const Guarding guarding(build, feeding);
  std::vector<LeadGuard> guards;
  for (const Lead& lead : build.leads) {
    if (auto guard = guarding.of(lead)) guards.push_back(*guard);
  }
  return guards;
}

}  // namespace tideover::finding
