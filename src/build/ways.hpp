/// The ways that current can take through a build: its leads, and the parts that join terminals
/// for good or when they are closed.
///
/// Loads, capacitors, lamps and other users are ends, not ways. So are resistors of more than an
/// ohm and the power stages of converters, which limit the current themselves; a step-up that is
/// not isolated is a way through its diode whatever its control does, and so is, backwards, a
/// step-down that does not block.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "build/build.hpp"

namespace tideover::build {

struct Way {
  std::size_t from = 0;  ///< a point, as Ways counts them
  std::size_t to = 0;
  bool is_one_way = false;           ///< current flows from `from` to `to` only
  quantity::Ohm resistance;          ///< closed and cold; of a lead at 20 degC; 0 for a junction
  const Lead* lead = nullptr;        ///< this or
  const part::Part* part = nullptr;  ///< the part that makes the way
  int pole = -1;                     ///< of the ways of one pole only one is closed at a time
};

class Ways {
 public:
  /// Refers to the build, which must outlive it.
  explicit Ways(const Build& build);

  [[nodiscard]] const std::vector<Way>& all() const { return ways_; }
  /// Empty for a terminal the build does not have.
  [[nodiscard]] std::optional<std::size_t> point_of(const TerminalName& terminal) const;
  [[nodiscard]] std::size_t points() const { return points_; }

  /// Whether a search follows the current or goes back to where it comes from.
  enum class Towards { Sink, Source };

  /// The best label of each point that can be reached from `start`; empty for those that cannot.
  /// `step(label, way)` is the label behind the way, or nothing where the way is not to be taken;
  /// it must never be better than `label` itself. `better(a, b)`: a goes before b.
  template <class Label, class Step, class Better>
  [[nodiscard]] std::vector<std::optional<Label>> spread(std::size_t start, const Label& first,
                                                         Towards towards, const Step& step,
                                                         const Better& better) const;

 private:
  void add_part(const part::Part& part);
  void add_contacts(const part::Part& part);
  void add(Way way, const part::Part& part, const std::string& from, const std::string& to);
  /// A way taken in its own direction (even) or against it (odd); at its end point.
  [[nodiscard]] std::size_t end_of(std::size_t step) const {
    return step % 2 == 0 ? ways_[step / 2].to : ways_[step / 2].from;
  }
  [[nodiscard]] std::size_t begin_of(std::size_t step) const { return end_of(step ^ 1U); }
  [[nodiscard]] bool may_go(std::size_t step, Towards towards) const {
    return !ways_[step / 2].is_one_way || (step % 2 == 0) == (towards == Towards::Sink);
  }
  [[nodiscard]] bool may_follow(std::size_t before, std::size_t after) const {
    const Way& a = ways_[before / 2];
    const Way& b = ways_[after / 2];
    return &a != &b && (a.pole < 0 || a.pole != b.pole);
  }

  std::map<TerminalName, std::size_t> point_of_;
  std::size_t points_ = 0;
  int poles_ = 0;
  std::vector<Way> ways_;
  std::vector<std::vector<std::size_t>> steps_from_;  ///< [point]
};

// The labels stand at steps rather than at points: what came in by one contact of a pole may not go
// out by another, even where that would be the best way to the pole.
template <class Label, class Step, class Better>
std::vector<std::optional<Label>> Ways::spread(std::size_t start, const Label& first,
                                               Towards towards, const Step& step,
                                               const Better& better) const {
  std::vector<std::optional<Label>> at_step(2 * ways_.size());
  std::vector<std::optional<Label>> at_point(points_);
  std::vector<std::size_t> open;
  const auto reach = [&](std::size_t taken, const Label& before) {
    if (!may_go(taken, towards)) return;
    const std::optional<Label> label = step(before, ways_[taken / 2]);
    if (!label || (at_step[taken] && !better(*label, *at_step[taken]))) return;
    at_step[taken] = label;
    auto& there = at_point[end_of(taken)];
    if (!there || better(*label, *there)) there = label;
    open.push_back(taken);
  };
  at_point[start] = first;
  for (const std::size_t taken : steps_from_[start]) reach(taken, first);
  while (!open.empty()) {
    const std::size_t before = open.back();
    open.pop_back();
    const Label label = *at_step[before];
    for (const std::size_t next : steps_from_[end_of(before)]) {
      if (may_follow(before, next)) reach(next, label);
    }
  }
  return at_point;
}

}  // namespace tideover::build
