/// What feeds a point of a build, and what stands between: the fuses, the resistance, the wire.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include "build/ways.hpp"
#include "finding/source.hpp"
#include "part/fuse/fuse.hpp"

namespace tideover::finding {

inline constexpr double unlimited_a = HUGE_VAL;

/// One source as it is seen from one point.
struct Feed {
  const Source* source = nullptr;
  /// What may flow for good: the smallest rated current of the fuses in the way, or what the
  /// source gives by itself if that is less; of several ways the one that lets through most.
  double most_a = unlimited_a;
  const part::Fuse* fuse = nullptr;  ///< the one that sets it; null: the source does, or nothing

  [[nodiscard]] bool is_unlimited() const { return most_a == unlimited_a; }
};

/// Leads or parts taken out of a build before it is asked; null: none.
struct Without {
  Without() = default;
  Without(const void* one, const void* another = nullptr) : first(one), second(another) {}
  const void* first = nullptr;
  const void* second = nullptr;
};

/// The least resistance from a source's plus, how much of it is leads, and what its diodes keep.
struct Path {
  quantity::Ohm resistance;
  quantity::Ohm leads;
  quantity::Metre wire;
  quantity::Volt drop;  ///< of diodes, at some current: the first point of their curve, or typical
};

/// Answers for one build, which must outlive it.
class Feeding {
 public:
  explicit Feeding(const build::Build& build);

  [[nodiscard]] const std::vector<Source>& sources() const { return sources_; }
  [[nodiscard]] const build::Ways& ways() const { return ways_; }

  /// All sources that can drive a fault current to a terminal, `without` apart.
  [[nodiscard]] std::vector<Feed> feeds(const build::TerminalName& at,
                                        const Without& without = {}) const;
  /// From one source; empty where it cannot.
  [[nodiscard]] std::optional<Feed> feed(const Source& source, const build::TerminalName& at,
                                         const Without& without = {}) const;
  /// By least resistance. Precondition: the source feeds the terminal.
  [[nodiscard]] Path path(const Source& source, const build::TerminalName& at) const;
  /// Shortest wire from the source to the terminal that no fuse protects; empty where every way
  /// leads through a fuse.
  [[nodiscard]] std::optional<quantity::Metre> unfused(const Source& source,
                                                       const build::TerminalName& at) const;
  /// Fuses through which every way from the source to the terminal leads.
  [[nodiscard]] std::vector<const part::Fuse*> fuses_in_the_way(
      const Source& source, const build::TerminalName& at) const;
  /// Whether current from `at` can get back to the source's minus.
  [[nodiscard]] bool returns(const Source& source, const build::TerminalName& at,
                             const Without& without = {}) const;
  /// The highest voltage any source can put on a terminal, a step-up's included; 0 where none does.
  [[nodiscard]] quantity::Volt highest_voltage(const build::TerminalName& at) const;

 private:
  const build::Build& build_;
  build::Ways ways_;
  std::vector<Source> sources_;
};

/// The current a bolted short circuit draws through a path. `highest`: new and full cells, the
/// return of no length; otherwise worn and empty ones, and a return as long as the way there.
[[nodiscard]] quantity::Ampere highest_prospective(const Source& source, const Path& path);
[[nodiscard]] quantity::Ampere lowest_prospective(const Source& source, const Path& path);

}  // namespace tideover::finding
