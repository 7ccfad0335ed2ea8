/// What follows from the wiring of a build alone, worked out by the first rule that asks for it.
#pragma once

#include <optional>
#include <vector>

#include "finding/evidence.hpp"
#include "finding/lead_guard.hpp"

namespace tideover::finding {

/// Belongs to one evidence, and to one thread.
class Wiring {
 public:
  [[nodiscard]] const Feeding& feeding(const build::Build& build);
  [[nodiscard]] const std::vector<LeadGuard>& guards(const build::Build& build);

 private:
  std::optional<Feeding> feeding_;
  std::optional<std::vector<LeadGuard>> guards_;
};

[[nodiscard]] const Feeding& feeding_of(const Evidence& evidence);
/// As lead_guards().
[[nodiscard]] const std::vector<LeadGuard>& guards_of(const Evidence& evidence);

}  // namespace tideover::finding
