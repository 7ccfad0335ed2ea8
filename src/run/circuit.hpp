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
};

/// Under which name the energy books keep all leads together.
inline constexpr std::string_view leads_account = "leads";

/// Refers to the build it was made from, which must outlive it.
struct Circuit {
  network::Network network;
  part::Instruments instruments;
  std::map<build::TerminalName, network::NodeId> nodes;
  std::vector<LeadElement> leads;
  std::vector<std::string> element_owner;  ///< part or leads_account, in the order of the ledgers
};

/// The network is sealed. The reference node is the minus terminal of the first adapter, or of the
/// first part that has one: all voltages count from there.
[[nodiscard]] Circuit assemble(const build::Build& build, const Circumstances& circumstances);

}  // namespace tideover::run
