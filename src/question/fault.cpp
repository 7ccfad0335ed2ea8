#include "question/fault.hpp"

#include <algorithm>
#include <utility>

#include "build/points.hpp"
#include "build/ways.hpp"
#include "part/connector/connector.hpp"
#include "part/pack/pack.hpp"
#include "part/terminal_block/terminal_block.hpp"

namespace tideover::question {

using build::Build;
using build::Defect;
using build::TerminalName;

namespace {

/// The points that nothing but wire parts from the common.
class Common {
 public:
  explicit Common(const Build& build) : ways_(build), at_(build::common_of(build)) {
    const auto start = ways_.point_of(at_);
    if (!start) return;
    joined_ = ways_.spread(
        *start, true, build::Ways::Towards::Sink,
        [](bool, const build::Way& way) -> std::optional<bool> {
          if (is_plain(way)) return true;
          return std::nullopt;
        },
        [](bool, bool) { return false; });
  }
  [[nodiscard]] const TerminalName& terminal() const { return at_; }
  [[nodiscard]] bool joins(const TerminalName& terminal) const {
    const auto point = ways_.point_of(terminal);
    return point && *point < joined_.size() && joined_[*point].has_value();
  }

 private:
  static bool is_plain(const build::Way& way) {
    if (way.lead != nullptr) return true;
    return dynamic_cast<const part::Connector*>(way.part) != nullptr ||
           dynamic_cast<const part::TerminalBlock*>(way.part) != nullptr;
  }

  build::Ways ways_;
  TerminalName at_;
  std::vector<std::optional<bool>> joined_;
};

Fault fault_of_part(const part::Part& part, const part::FailureMode& mode) {
  Fault fault{.about = Fault::About::Part,
              .subject = part.name,
              .mode = mode.name,
              .means = mode.means,
              .variation = {}};
  const bool is_exchange = std::ranges::any_of(mode.damages, [](const part::Damage& damage) {
    return damage.what == part::Damage::What::Exchanged;
  });
  fault.can_arise = !mode.damages.empty() && !mode.alters && !is_exchange;
  fault.variation = {fault.words(), {build::Failure{part.name, mode.name, fault.can_arise}}};
  return fault;
}

Fault fault_of_lead(const build::Lead& lead, Fault::About about, std::string mode,
                    std::string means, Defect defect) {
  Fault fault{.about = about,
              .subject = "leads." + lead.name,
              .mode = std::move(mode),
              .means = std::move(means),
              .variation = {},
              .can_arise = true};
  defect.arises_later = true;
  fault.variation = {fault.words(), {std::move(defect)}};
  return fault;
}

/// The pack at one end of a lead, if that end is not its minus.
const part::Pack* cells_of(const Build& build, const build::Lead& lead) {
  for (const TerminalName& end : {lead.from, lead.to}) {
    const auto* const pack = dynamic_cast<const part::Pack*>(build.find(end.part));
    if (pack != nullptr && end.terminal != pack->terminal_below(1)) return pack;
  }
  return nullptr;
}

void add_lead(const Build& build, const build::Lead& lead, const Common& common,
              std::vector<Fault>& all) {
  using About = Fault::About;
  all.push_back(fault_of_lead(lead, About::Lead, "comes off", "it carries nothing any more",
                              build::lead_open(lead.name)));
  all.push_back(fault_of_lead(lead, About::Lead, "loose screw",
                              "half an ohm stands in its way and gets hot with its current",
                              build::lead_loose(lead.name, part::poor_contact)));
  if (const part::Pack* const pack = cells_of(build, lead)) {
    all.push_back(fault_of_lead(
        lead, About::Chafe, "chafed to the cells' minus",
        "its insulation is through and it touches the minus of the cells, before any board",
        build::bridge_between(lead.from, {pack->name, pack->terminal_below(1)}, part::bridge)));
  }
  if (common.joins(lead.from) || common.joins(lead.to)) return;
  all.push_back(fault_of_lead(lead, About::Chafe, "chafed to the common",
                              "its insulation is through and it touches the common",
                              build::bridge_between(lead.from, common.terminal(), part::bridge)));
}

}  // namespace

std::vector<Fault> faults_of(const Build& build) {
  std::vector<Fault> all;
  for (const auto& part : build.parts) {
    for (const part::FailureMode& mode : part->failure_modes()) {
      if (mode.damages.empty() && !mode.alters) continue;
      all.push_back(fault_of_part(*part, mode));
    }
  }
  const Common common(build);
  for (const build::Lead& lead : build.leads) add_lead(build, lead, common, all);
  return all;
}

bool is_common(const Build& build, const TerminalName& terminal) {
  return Common(build).joins(terminal);
}

}  // namespace tideover::question
