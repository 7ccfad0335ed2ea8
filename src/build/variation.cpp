#include "build/variation.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace tideover::build {

Defect lead_open(const std::string& lead) {
  return {.what = part::Damage::What::Open, .lead = lead};
}

Defect lead_loose(const std::string& lead, quantity::Ohm resistance) {
  return {.what = part::Damage::What::Resistive, .lead = lead, .resistance = resistance};
}

Defect bridge_between(TerminalName terminal, TerminalName other, quantity::Ohm resistance) {
  return {.what = part::Damage::What::Bridged,
          .terminal = std::move(terminal),
          .other = std::move(other),
          .resistance = resistance};
}

std::vector<Defect> defects_of(const part::Part& part, const part::FailureMode& mode) {
  std::vector<Defect> defects;
  for (const part::Damage& damage : mode.damages) {
    defects.push_back({.what = damage.what,
                       .terminal = {part.name, damage.terminal},
                       .other = {part.name, damage.other},
                       .resistance = damage.resistance});
  }
  return defects;
}

Workpiece::Workpiece(const Build& original)
    : original_(original), build_(original.copy()), parameters_(parameters_of(build_)) {}

void Workpiece::vary(const Variation& variation) {
  take_back();
  for (const Alteration& one : variation.alterations) {
    std::visit([this](const auto& alteration) { alter(alteration); }, one);
  }
}

void Workpiece::set(std::size_t index, double value_si) {
  quantity::Amount& amount = *parameters_[index].amount;
  set_.emplace_back(index, amount);
  amount.nominal_si = amount.low_si = amount.high_si = value_si;
  amount.given = true;
}

void Workpiece::take_back() {
  for (auto one = set_.rbegin(); one != set_.rend(); ++one) {
    *parameters_[one->first].amount = std::move(one->second);
  }
  set_.clear();
  for (auto one = failed_.rbegin(); one != failed_.rend(); ++one) {
    build_.parts[one->first] = std::move(one->second);
  }
  if (!failed_.empty()) parameters_ = parameters_of(build_);
  failed_.clear();
  build_.defects = original_.defects;
}

void Workpiece::alter(const Setting& setting) {
  const Parameter* const parameter = find_parameter(parameters_, setting.path);
  TIDEOVER_EXPECT(parameter != nullptr, "a variation sets a value that the build has");
  set(static_cast<std::size_t>(parameter - parameters_.data()), setting.value_si);
}

/// The failed part is a copy: `alters` may change what no parameter names.
void Workpiece::alter(const Failure& failure) {
  const auto at =
      std::ranges::find(build_.parts, failure.part,
                        [](const auto& part) -> const std::string& { return part->name; });
  TIDEOVER_EXPECT(at != build_.parts.end(), "a variation lets a part fail that the build has");
  const auto modes = (*at)->failure_modes();
  const auto mode = std::ranges::find(modes, failure.mode, &part::FailureMode::name);
  TIDEOVER_EXPECT(mode != modes.end(), "a part fails in a way that its kind knows");
  for (Defect defect : defects_of(**at, *mode)) {
    defect.arises_later = failure.arises_later;
    build_.defects.push_back(std::move(defect));
  }
  if (!mode->alters) return;
  TIDEOVER_EXPECT(set_.empty(), "parts fail before values are set");
  failed_.emplace_back(static_cast<std::size_t>(at - build_.parts.begin()), (*at)->clone());
  mode->alters(**at);
  parameters_ = parameters_of(build_);
}

void Workpiece::alter(const Defect& defect) { build_.defects.push_back(defect); }

}  // namespace tideover::build
