/// A build turned into a network: the one place where parts, leads and joins become equations.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "build/build.hpp"
#include "network/network.hpp"
#include "part/installer.hpp"
#include "part/resistance.hpp"
#include "run/run.hpp"

namespace tideover::run {

struct LeadElement {
  const build::Lead* lead = nullptr;
  network::Handle<part::Resistance> handle;
  network::NodeId from;
  network::NodeId to;
  bool is_damaged = false;  ///< its defect says what it conducts, not the air around it
};

/// A defect of the build as a conductance that changes once.
struct DefectElement {
  const build::Defect* defect = nullptr;
  network::Handle<part::Resistance> handle;
  double arisen_s = part::open_conductance_s;  ///< conductance once the defect is there
};

/// Under which names the energy books keep all leads, and all that is broken.
inline constexpr std::string_view leads_account = "leads";
inline constexpr std::string_view defects_account = "defects";

/// Refers to the build it was made from, which must outlive it.
struct Circuit {
  network::Network network;
  part::Instruments instruments;
  std::map<build::TerminalName, network::NodeId> nodes;  ///< where leads end
  std::vector<LeadElement> leads;
  std::vector<DefectElement> defects;
  std::vector<std::string> element_owner;  ///< part or leads_account, in the order of the ledgers
};

/// Under which name the voltage at a test point is recorded, as a channel of the part.
[[nodiscard]] std::string meter_channel(const part::TestPoint& point);

/// The network is sealed. Its reference node is the build's common (build/points.hpp).
[[nodiscard]] Circuit assemble(const build::Build& build, const Circumstances& circumstances);

}  // namespace tideover::run
