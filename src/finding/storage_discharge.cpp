#include <cmath>

#include <fmt/format.h>

#include "build/parts_of.hpp"
#include "finding/advice.hpp"
#include "finding/feed.hpp"
#include "finding/rule_list.hpp"
#include "part/converter/board.hpp"
#include "part/level_indicator/level_indicator.hpp"
#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/switch/switch.hpp"

namespace tideover::finding {

using quantity::Ampere;
using quantity::Second;

namespace {

constexpr double month_s = 30.0 * 86400.0;
/// A pack on the shelf is looked at twice a year, and put there half full. Common practice, no
/// source.
constexpr double looked_at_s = 6.0 * month_s;
constexpr double put_away_at = 0.5;
/// Self-discharge is stated at this.
constexpr double stated_at_k = 298.15;

build::Build switched_off(const build::Build& build) {
  build::Build off = build.copy();
  std::erase_if(off.parts, [](const auto& part) {
    return dynamic_cast<const part::Switch*>(part.get()) != nullptr;
  });
  return off;
}

/// What goes on drawing from the pack, and the largest of it.
struct Draws {
  double all_a = 0.0;
  double largest_a = 0.0;
  std::string largest;  ///< "board: drain"

  void add(const std::string& part, const char* key, double draws_a) {
    all_a += draws_a;
    if (draws_a <= largest_a) return;
    largest_a = draws_a;
    largest = part + ": " + key;
  }
};

Draws draws_on(const build::Build& off, const Source& pack) {
  const Feeding feeding(off);
  const auto fed = [&](const std::string& part, const char* terminal) {
    return feeding.feed(pack, {part, terminal}).has_value();
  };
  Draws draws;
  for (const auto* board : parts_of<part::ProtectionBoard>(off)) {
    if (fed(board->name, "b_plus")) draws.add(board->name, "drain", board->drain.high_si);
  }
  for (const auto* gauge : parts_of<part::LevelIndicator>(off)) {
    if (fed(gauge->name, "plus")) draws.add(gauge->name, "draws", gauge->draws.high_si);
  }
  for (const auto* board : parts_of<part::ConverterBoard>(off)) {
    if (fed(board->name, "in_plus")) draws.add(board->name, "idle_draw", board->idle_draw.high_si);
  }
  return draws;
}

/// Share of its charge lost a second, in the warmest air it may lie in.
double self_discharge_per_s(const part::Cell& cell, quantity::Temperature air) {
  const double warmer_k = air.si() - stated_at_k;
  return cell.self_discharge.high_si / month_s *
         std::exp2(warmer_k / cell.self_discharge_doubles.si());
}

Finding of_pack(const build::Build& build, const build::Build& off, const part::Pack& pack,
                const Source& source) {
  const double capacity_c = pack.group_capacity(1).si();
  const Draws draws = draws_on(off, source);
  const double own_a =
      capacity_c * put_away_at * self_discharge_per_s(pack.cell, build.needs.ambient.high());
  const double lasts_s = put_away_at * capacity_c / (draws.all_a + own_a);
  Finding finding = measured_against<Second>(pack.name, lasts_s, looked_at_s, Limits::Below);
  finding.sentence = fmt::format(
      "Put away half full and switched off, {} is empty after {}: {} are drawn and {} lost by "
      "itself; {} pass before someone looks.",
      pack.name, quantity::show(Second::of_si(lasts_s)), shown<Ampere>(draws.all_a, 3),
      shown<Ampere>(own_a, 3), quantity::show(Second::of_si(looked_at_s)));
  if (finding.answer == Answer::Holds) return finding;
  finding.brief = pack.name + " runs empty on the shelf";
  const double most_a = put_away_at * capacity_c / (looked_at_s * (1.0 + tight_share)) - own_a;
  const double of_largest_a = most_a - (draws.all_a - draws.largest_a);
  finding.advice =
      of_largest_a > 0.0
          ? fmt::format("{} = {} or less, or a switch between it and {}.", draws.largest,
                        rounded_down(Ampere::of_si(of_largest_a), Ampere::of_si(1e-6)), pack.name)
      : draws.all_a > own_a
          ? fmt::format("a switch next to {}, before all that draws from it.", pack.name)
          : fmt::format("{}: a cooler place, or a charge every {}.", pack.name,
                        quantity::show(Second::of_si(0.5 * lasts_s)));
  return finding;
}

std::vector<Finding> ask(const Evidence& evidence) {
  const build::Build off = switched_off(evidence.build);
  std::vector<Finding> found;
  for (const Source& source : sources_of(evidence.build)) {
    const auto* const pack = dynamic_cast<const part::Pack*>(source.part);
    if (pack == nullptr || source.plus.terminal != "plus") continue;
    if (pack->group_capacity(1).si() <= 0.0) continue;
    found.push_back(of_pack(evidence.build, off, *pack, source));
  }
  return found;
}

}  // namespace

const Rule& storage_discharge() {
  static const Rule rule{
      .key = "storage_discharge",
      .title = "The pack on the shelf",
      .words =
          "A pack that is put away goes on feeding its protection board, and whatever its switch "
          "does not take off, until it is too empty ever to be charged again. Put away half full "
          "it has to last until someone looks at it.",
      .formula = "t = 0.5 C / (I_drain + 0.5 C s(T)) >= 6 months",
      .source = "six months and half full: common practice, no source",
      .caution =
          "Do not charge a lithium cell that has lain below its lowest voltage: it may have grown "
          "a short circuit.",
      .is_harm = false,
      .ask = ask};
  return rule;
}

}  // namespace tideover::finding
