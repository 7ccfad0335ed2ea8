#include <algorithm>

#include <fmt/format.h>

#include "finding/advice.hpp"
#include "finding/lead_guard.hpp"
#include "finding/rule_list.hpp"
#include "finding/stock_size.hpp"
#include "finding/wiring.hpp"
#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Metre;

namespace {

/// What a protection board takes from a pack is for measuring.
bool is_sensing(const part::Part* part) {
  return dynamic_cast<const part::ProtectionBoard*>(part) != nullptr;
}

/// A part that a pack feeds with no fuse between.
const part::Part* unguarded_by(const build::Build& build, const Feeding& feeding,
                               const Source& source) {
  for (const auto& part : build.parts) {
    if (part.get() == source.part || is_sensing(part.get())) continue;
    for (const part::Terminal& terminal : part->terminals()) {
      if (terminal.role != part::Role::Plus && terminal.role != part::Role::Coil) continue;
      const auto feed = feeding.feed(source, {part->name, terminal.name});
      if (feed && feed->is_unlimited()) return part.get();
    }
  }
  return nullptr;
}

/// The nearest fuse of those that stand in the way of current from the source.
const part::Fuse* first_fuse(const build::Build& build, const Feeding& feeding,
                             const Source& source, Metre& before) {
  const part::Fuse* nearest = nullptr;
  for (const auto& part : build.parts) {
    const auto* const fuse = dynamic_cast<const part::Fuse*>(part.get());
    if (fuse == nullptr) continue;
    for (const char* end : {"a", "b"}) {
      if (!feeding.feed(source, {fuse->name, end}, fuse)) continue;
      const auto wire = feeding.unfused(source, {fuse->name, end});
      if (!wire || (nearest != nullptr && *wire >= before)) continue;
      nearest = fuse;
      before = *wire;
    }
  }
  return nearest;
}

/// The thinnest lead that nothing protects decides on the fuse.
Ampere thinnest_unguarded(const build::Build& build, const Feeding& feeding) {
  Ampere thinnest = Ampere::of_si(unlimited_a);
  for (const LeadGuard& guard : lead_guards(build, feeding)) {
    const bool senses = is_sensing(build.find(guard.lead->from.part)) ||
                        is_sensing(build.find(guard.lead->to.part));
    if (guard.most_a != unlimited_a || senses) continue;
    const auto air = build.needs.ambient.high();
    thinnest = std::min(thinnest, guard.lead->wire.ampacity(air).current);
  }
  return thinnest.si() < unlimited_a ? thinnest : Ampere{};
}

Finding without_fuse(const Feeding& feeding, const build::Build& build, const Source& source,
                     const std::string& fed) {
  const std::string& name = source.part->name;
  const Ampere most = highest_prospective(source, {});
  const Ampere limit = thinnest_unguarded(build, feeding);
  Finding finding = measured_against<Ampere>(name, most.si(), limit.si(), Limits::Above);
  finding.answer = Answer::Fails;
  finding.margin.reset();  // a bolted short circuit is always tens of times what a lead carries
  finding.sentence = fmt::format(
      "{} can drive {} into a short circuit and feeds {} without a fuse; the thinnest lead that "
      "nothing protects carries {}.",
      name, shown<Ampere>(most.si(), 3), fed, shown<Ampere>(limit.si(), 3));
  const auto rating = fuse_up_to(part::FuseStyle::Blade, limit);
  finding.advice = fmt::format("a fuse of {} or less within {} of {}.{}, before all it feeds.",
                               quantity::show(rating.value_or(limit)),
                               shown<Metre>(longest_unfused.si()), name, source.plus.terminal);
  finding.brief = fmt::format("{} feeds {} without a fuse", name, fed);
  return finding;
}

Finding of_pack(const build::Build& build, const Feeding& feeding, const Source& source) {
  const std::string& name = source.part->name;
  if (const part::Part* const fed = unguarded_by(build, feeding, source)) {
    return without_fuse(feeding, build, source, fed->name);
  }
  Metre before;
  const part::Fuse* const fuse = first_fuse(build, feeding, source, before);
  const Ampere most = highest_prospective(source, {});
  Finding finding{.part = name, .answer = Answer::Holds};
  if (fuse == nullptr) {
    finding.measured = Figure{most.si(), quantity::measure_of<Ampere>()};
    finding.sentence =
        fmt::format("{} can drive {} and feeds nothing.", name, shown<Ampere>(most.si(), 3));
    return finding;
  }
  finding = measured_against<Metre>(name, before.si(), longest_unfused.si(), Limits::Above);
  finding.sentence = fmt::format(
      "{} can drive {} into a short circuit; {} of {} follows after {} of wire, of {} at most.",
      name, shown<Ampere>(most.si(), 3), fuse->name, quantity::show(fuse->rated.nominal()),
      shown<Metre>(before.si()), shown<Metre>(longest_unfused.si()));
  if (finding.answer != Answer::Holds) {
    finding.advice = fmt::format("{}: put it nearer to {}.{}, {} of wire or less.", fuse->name,
                                 name, source.plus.terminal, shown<Metre>(longest_unfused.si()));
    finding.brief = fmt::format("{} is too far from {}", fuse->name, name);
  }
  return finding;
}

/// Certified adapters and converters limit themselves; the leads they feed are another rule's.
Finding of_limited(const Source& source) {
  Finding finding{.part = source.part->name, .answer = Answer::Holds};
  finding.measured = Figure{source.limit->si(), quantity::measure_of<Ampere>()};
  finding.sentence = fmt::format("{} gives {} at most by itself and needs no fuse of its own.",
                                 source.part->name, shown<Ampere>(source.limit->si(), 3));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const Feeding& feeding = feeding_of(evidence);
  std::vector<Finding> found;
  for (const Source& source : feeding.sources()) {
    if (source.is_through) continue;
    if (source.limit) {
      found.push_back(of_limited(source));
    } else if (source.plus.terminal == "plus") {
      found.push_back(of_pack(evidence.build, feeding, source));
    }
  }
  return found;
}

}  // namespace

const Rule& fuse_for_each_source() {
  static const Rule rule{
      .key = "fuse_for_each_source",
      .title = "A fuse for each source",
      .words =
          "A pack drives hundreds of amperes into a short circuit. Its fuse stands next to its "
          "plus, before anything else, so that no lead is left that nothing protects. An adapter "
          "or converter that limits its own current needs none.",
      .formula = "I_short = U / (R_pack + R_way); l before the fuse <= 180 mm",
      .source =
          "IEC 60364-4-43, 434.2, from memory; the length: ABYC E-11, from memory; the pack's "
          "current: U / R by the load-step method, common practice",
      .caution =
          "Work on the pack with its fuse pulled, with insulated tools and without rings or "
          "watch.",
      .is_harm = true,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
