#include "finding/feed.hpp"

#include <algorithm>

#include "part/converter/board.hpp"
#include "part/diode/diode.hpp"

namespace tideover::finding {

using build::TerminalName;
using build::Way;
using build::Ways;
using quantity::Ampere;
using quantity::Metre;
using quantity::Ohm;
using quantity::Volt;
using namespace quantity::literals;

namespace {

bool is_without(const Way& way, const Without& without) {
  const void* const made_by =
      way.lead != nullptr ? static_cast<const void*>(way.lead) : static_cast<const void*>(way.part);
  return made_by == without.first || made_by == without.second;
}

/// Backwards through itself a converter gives nothing: it has its input from somewhere.
bool is_own(const Way& way, const Source& source) { return way.part == source.part; }

const part::Fuse* fuse_of(const Way& way) { return dynamic_cast<const part::Fuse*>(way.part); }

/// What the diode of a way keeps: 0.9 V of silicon and 0.45 V of a Schottky contact (typical at
/// rated current, from memory) where its curve is not given, 0.7 V of a converter's own.
Volt drop_of(const Way& way) {
  if (const auto* diode = dynamic_cast<const part::Diode*>(way.part)) {
    if (!diode->points.empty()) return diode->points.front().voltage.nominal();
    return diode->material == part::Material::Silicon ? 0.9_V : 0.45_V;
  }
  return dynamic_cast<const part::ConverterBoard*>(way.part) != nullptr ? 0.7_V : 0.0_V;
}

/// What a spread needs to know of nothing but whether a point is reached.
struct Reached {};
constexpr auto never_better = [](const Reached&, const Reached&) { return false; };

}  // namespace

Feeding::Feeding(const build::Build& build)
    : build_(build), ways_(build), sources_(sources_of(build)) {}

std::optional<Feed> Feeding::feed(const Source& source, const TerminalName& at,
                                  const Without& without) const {
  const auto start = ways_.point_of(source.plus);
  const auto end = ways_.point_of(at);
  if (!start || !end) return std::nullopt;
  Feed first{.source = &source};
  if (source.limit) first.most_a = source.limit->si();
  const auto step = [&](const Feed& before, const Way& way) -> std::optional<Feed> {
    if (is_without(way, without) || is_own(way, source)) return std::nullopt;
    Feed after = before;
    const part::Fuse* const fuse = fuse_of(way);
    if (fuse != nullptr && fuse->rated.si() < after.most_a) {
      after.most_a = fuse->rated.si();
      after.fuse = fuse;
    }
    return after;
  };
  const auto better = [](const Feed& a, const Feed& b) { return a.most_a > b.most_a; };
  return ways_.spread(*start, first, Ways::Towards::Sink, step, better)[*end];
}

std::vector<Feed> Feeding::feeds(const TerminalName& at, const Without& without) const {
  std::vector<Feed> all;
  for (const Source& source : sources_) {
    if (source.is_through) continue;
    if (const auto one = feed(source, at, without)) all.push_back(*one);
  }
  return all;
}

Path Feeding::path(const Source& source, const TerminalName& at) const {
  const auto step = [&](const Path& before, const Way& way) -> std::optional<Path> {
    if (is_own(way, source)) return std::nullopt;
    Path after = before;
    after.resistance += way.resistance;
    if (way.lead != nullptr) {
      after.leads += way.resistance;
      after.wire += way.lead->wire.length.nominal();
    }
    after.drop += drop_of(way);
    return after;
  };
  const auto better = [](const Path& a, const Path& b) { return a.resistance < b.resistance; };
  const auto all =
      ways_.spread(ways_.point_of(source.plus).value(), Path{}, Ways::Towards::Sink, step, better);
  return all[ways_.point_of(at).value()].value();
}

std::optional<Metre> Feeding::unfused(const Source& source, const TerminalName& at) const {
  const auto step = [](const Metre& before, const Way& way) -> std::optional<Metre> {
    if (fuse_of(way) != nullptr) return std::nullopt;
    return way.lead == nullptr ? before : before + way.lead->wire.length.nominal();
  };
  const auto better = [](const Metre& a, const Metre& b) { return a < b; };
  return ways_.spread(ways_.point_of(source.plus).value(), Metre{}, Ways::Towards::Sink, step,
                      better)[ways_.point_of(at).value()];
}

std::vector<const part::Fuse*> Feeding::fuses_in_the_way(const Source& source,
                                                         const TerminalName& at) const {
  std::vector<const part::Fuse*> all;
  if (!feed(source, at)) return all;
  for (const auto& part : build_.parts) {
    const auto* const fuse = dynamic_cast<const part::Fuse*>(part.get());
    if (fuse != nullptr && !feed(source, at, fuse)) all.push_back(fuse);
  }
  return all;
}

bool Feeding::returns(const Source& source, const TerminalName& at, const Without& without) const {
  const auto start = ways_.point_of(source.minus);
  const auto end = ways_.point_of(at);
  if (!start || !end) return false;
  const auto step = [&](const Reached& before, const Way& way) -> std::optional<Reached> {
    if (is_without(way, without)) return std::nullopt;
    return before;
  };
  return ways_.spread(*start, Reached{}, Ways::Towards::Source, step, never_better)[*end]
      .has_value();
}

Volt Feeding::highest_voltage(const TerminalName& at) const {
  Volt highest;
  for (const Source& source : sources_) {
    if (feed(source, at)) highest = std::max(highest, source.highest);
  }
  return highest;
}

Ampere highest_prospective(const Source& source, const Path& path) {
  const Volt drives = std::max(Volt{}, source.highest - path.drop);
  const Ampere through = drives / (source.least_resistance + path.resistance);
  return source.limit ? std::min(*source.limit, through) : through;
}

Ampere lowest_prospective(const Source& source, const Path& path) {
  const Ampere through = source.lowest / (source.most_resistance + path.resistance + path.leads);
  return source.limit ? std::min(*source.limit, through) : through;
}

}  // namespace tideover::finding
