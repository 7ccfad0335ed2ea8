#include "finding/wiring.hpp"

namespace tideover::finding {

std::shared_ptr<Wiring> unknown_wiring() { return std::make_shared<Wiring>(); }

const Feeding& Wiring::feeding(const build::Build& build) {
  if (!feeding_) feeding_.emplace(build);
  return *feeding_;
}

const std::vector<LeadGuard>& Wiring::guards(const build::Build& build) {
  if (!guards_) guards_ = lead_guards(build, feeding(build));
  return *guards_;
}

const Feeding& feeding_of(const Evidence& evidence) {
  return evidence.wiring->feeding(evidence.build);
}

const std::vector<LeadGuard>& guards_of(const Evidence& evidence) {
  return evidence.wiring->guards(evidence.build);
}

}  // namespace tideover::finding
