#include <algorithm>
#include <set>

#include "build/points.hpp"
#include "build/sheet_reading.hpp"
#include "part/pack/pack.hpp"
#include "part/protection_board/protection_board.hpp"

namespace tideover::build {
namespace {

void tell_dangling(const part::Part& part, const std::set<TerminalName>& wired,
                   SheetReading& reading) {
  for (const part::Terminal& terminal : part.terminals()) {
    if (!terminal.must_be_wired || wired.count({part.name, terminal.name}) > 0) continue;
    reading.fields.tell_sense(
        reading.part_places.at(part.name),
        "`" + part.name + "." + terminal.name + "` is not wired: " + terminal.means,
        "Give it a lead or put it in a join.");
  }
}

/// The first minus that is one point with a plus of the same part.
std::string shorted_pair(const part::Part& part, Points& points) {
  const std::vector<part::Terminal> terminals = part.terminals();
  for (const part::Terminal& plus : terminals) {
    if (plus.role != part::Role::Plus) continue;
    for (const part::Terminal& minus : terminals) {
      if (minus.role != part::Role::Minus) continue;
      if (points.point_of({part.name, plus.name}) != points.point_of({part.name, minus.name})) {
        continue;
      }
      return "`" + part.name + "." + plus.name + "` and `" + part.name + "." + minus.name + "`";
    }
  }
  return "";
}

/// Of the parts shorted now and not in `told`, which takes them all, the pair to name: a source's
/// where there is one, since what hangs on it is shorted with it.
std::string newly_shorted(const Build& build, Points& points, std::set<std::string>& told) {
  std::string first;
  std::string of_source;
  for (const auto& part : build.parts) {
    if (told.count(part->name) > 0) continue;
    const std::string pair = shorted_pair(*part, points);
    if (pair.empty()) continue;
    told.insert(part->name);
    const std::string& kind = part->description().name;
    if (first.empty()) first = pair;
    if (of_source.empty() && (kind == "pack" || kind == "adapter")) of_source = pair;
  }
  return of_source.empty() ? first : of_source;
}

void merge_inside(const part::Part& part, Points& points) {
  for (const std::vector<std::string>& group : part.joined_inside()) {
    for (std::size_t i = 1; i < group.size(); ++i) {
      points.merge({part.name, group[0]}, {part.name, group[i]});
    }
  }
}

/// Tie by tie, so that the one that closes the short is told.
void tell_shorts(SheetReading& reading) {
  Points points;
  std::set<std::string> told;
  for (const auto& part : reading.build.parts) {
    merge_inside(*part, points);
    if (!shorted_pair(*part, points).empty()) told.insert(part->name);
  }
  for (const Tie& tie : reading.ties) {
    for (std::size_t i = 1; i < tie.ends.size(); ++i) {
      points.merge(tie.ends[0].terminal, tie.ends[i].terminal);
    }
    const std::string pair = newly_shorted(reading.build, points, told);
    if (pair.empty()) continue;
    reading.fields.tell_sense(tie.place, tie.means + " makes a short circuit of " + pair,
                              "Nothing but wire lies between them; check where each end belongs.");
  }
}

/// A board across a whole pack watches every group of it, or one overcharges unseen.
void tell_unwatched_groups(SheetReading& reading) {
  Points points;
  for (const Tie& tie : reading.ties) {
    for (const WiredEnd& end : tie.ends) points.merge(tie.ends[0].terminal, end.terminal);
  }
  const auto meet = [&](const part::Part& a, const char* of_a, const part::Part& b,
                        const char* of_b) {
    return points.point_of({a.name, of_a}) == points.point_of({b.name, of_b});
  };
  for (const auto& one : reading.build.parts) {
    const auto* const board = dynamic_cast<const part::ProtectionBoard*>(one.get());
    if (board == nullptr) continue;
    for (const auto& other : reading.build.parts) {
      const auto* const pack = dynamic_cast<const part::Pack*>(other.get());
      if (pack == nullptr || board->series == pack->series ||
          !meet(*board, "b_plus", *pack, "plus") || !meet(*board, "b_minus", *pack, "minus")) {
        continue;
      }
      reading.fields.tell_sense(
          reading.part_places.at(board->name),
          "`" + board->name + "` is made for " + std::to_string(board->series) + " groups, and `" +
              pack->name + "` has " + std::to_string(pack->series) + " in series",
          "A group that no board watches is overcharged or emptied unseen: take a board for " +
              std::to_string(pack->series) + " groups, and wire every tap.");
    }
  }
}

}  // namespace

void check_wiring(SheetReading& reading) {
  std::set<TerminalName> wired;
  for (const Tie& tie : reading.ties) {
    for (const WiredEnd& end : tie.ends) wired.insert(end.terminal);
  }
  if (reading.all_ties_sound && reading.fields.is_whole()) {
    for (const auto& part : reading.build.parts) tell_dangling(*part, wired, reading);
    tell_unwatched_groups(reading);
  }
  tell_shorts(reading);
}

}  // namespace tideover::build
