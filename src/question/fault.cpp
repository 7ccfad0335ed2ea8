#include "question/fault.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "build/points.hpp"
#include "build/ways.hpp"
#include "part/connector/connector.hpp"
#include "part/fuse/fuse.hpp"
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

/// Terminals that a lead or a join reaches.
class Wired {
 public:
  explicit Wired(const Build& build) {
    for (const build::Lead& lead : build.leads) wired_.insert({lead.from, lead.to});
    for (const build::Join& join : build.joins) {
      wired_.insert(join.terminals.begin(), join.terminals.end());
    }
  }
  /// Whether anything in the build can feel it.
  [[nodiscard]] bool feels(const part::Part& part, const part::Damage& damage) const {
    const bool one = wired_.contains({part.name, damage.terminal});
    const bool other = wired_.contains({part.name, damage.other});
    switch (damage.what) {
      case part::Damage::What::Open:
      case part::Damage::What::Resistive: return one;
      case part::Damage::What::Bridged: return one && other;
      case part::Damage::What::Exchanged: return one || other;
    }
    return true;
  }
  [[nodiscard]] bool feels(const part::Part& part, const part::FailureMode& mode) const {
    if (mode.alters) return true;
    return std::ranges::any_of(mode.damages,
                               [&](const part::Damage& damage) { return feels(part, damage); });
  }

 private:
  std::set<TerminalName> wired_;
};

/// What someone sees who opens the box: a fuse of the wrong sort, a part the wrong way round.
std::string looks_of(const part::Part& part, const part::FailureMode& mode, bool is_exchange) {
  if (part.where != part::Whereabouts::Box) return {};
  const bool is_fuse = dynamic_cast<const part::Fuse*>(&part) != nullptr;
  if (is_exchange || (is_fuse && mode.alters) || mode.name == "bridged") {
    return part.name + ": " + mode.name;
  }
  return {};
}

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
  fault.looks = looks_of(part, mode, is_exchange);
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
  if (lead.wire.where == part::Whereabouts::Box) fault.looks = fault.words();
  fault.variation = {fault.words(), {std::move(defect)}};
  return fault;
}

/// A lead of a pack that is not that of its minus: the pack, and the lead's end away from it, so
/// that the lead carries what flows.
struct CellLead {
  const part::Pack* pack = nullptr;
  TerminalName far;
};
std::optional<CellLead> cell_lead(const Build& build, const build::Lead& lead) {
  for (const auto& [end, far] : {std::pair(lead.from, lead.to), std::pair(lead.to, lead.from)}) {
    const auto* const pack = dynamic_cast<const part::Pack*>(build.find(end.part));
    if (pack != nullptr && end.terminal != pack->terminal_below(1)) return CellLead{pack, far};
  }
  return std::nullopt;
}

void add_lead(const Build& build, const build::Lead& lead, const Common& common,
              std::vector<Fault>& all) {
  using About = Fault::About;
  all.push_back(fault_of_lead(lead, About::Lead, "comes off", "it carries nothing any more",
                              build::lead_open(lead.name)));
  all.push_back(fault_of_lead(lead, About::Lead, "loose screw",
                              "half an ohm stands in its way and gets hot with its current",
                              build::lead_loose(lead.name, part::poor_contact)));
  bool minus_is_common = false;
  if (const auto cells = cell_lead(build, lead)) {
    const TerminalName minus{cells->pack->name, cells->pack->terminal_below(1)};
    minus_is_common = common.joins(minus);
    all.push_back(
        fault_of_lead(lead, About::Chafe, "chafed to the cells' minus",
                      "its insulation is through and it touches the minus of the cells, before "
                      "any board",
                      build::bridge_between(cells->far, minus, part::bridge)));
  }
  if (minus_is_common || common.joins(lead.from) || common.joins(lead.to)) return;
  all.push_back(fault_of_lead(lead, About::Chafe, "chafed to the common",
                              "its insulation is through and it touches the common",
                              build::bridge_between(lead.from, common.terminal(), part::bridge)));
}

}  // namespace

std::vector<Fault> faults_of(const Build& build) {
  std::vector<Fault> all;
  const Wired wired(build);
  for (const auto& part : build.parts) {
    for (const part::FailureMode& mode : part->failure_modes()) {
      if (!wired.feels(*part, mode)) continue;
      all.push_back(fault_of_part(*part, mode));
    }
  }
  const Common common(build);
  for (const build::Lead& lead : build.leads) add_lead(build, lead, common, all);
  return all;
}

}  // namespace tideover::question
