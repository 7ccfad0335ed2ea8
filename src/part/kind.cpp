#include "part/kind.hpp"

#include "part/adapter/adapter.hpp"
#include "part/box/box.hpp"
#include "part/capacitor/capacitor.hpp"
#include "part/charger/charger.hpp"
#include "part/connector/connector.hpp"
#include "part/converter/converter.hpp"
#include "part/diode/diode.hpp"
#include "part/fan/fan.hpp"
#include "part/fuse/fuse.hpp"
#include "part/ideal_diode/ideal_diode.hpp"
#include "part/led/led.hpp"
#include "part/level_indicator/level_indicator.hpp"
#include "part/load/load.hpp"
#include "part/pack/pack.hpp"
#include "part/polarity_guard/polarity_guard.hpp"
#include "part/protection_board/protection_board.hpp"
#include "part/relay/relay.hpp"
#include "part/resistor/resistor.hpp"
#include "part/surge_clamp/surge_clamp.hpp"
#include "part/switch/switch.hpp"
#include "part/terminal_block/terminal_block.hpp"
#include "part/thermal_cut_out/thermal_cut_out.hpp"

namespace tideover::part {

namespace {

template <class P>
Kind kind_of() {
  return {&P::describe(), [] { return std::make_unique<P>(); }};
}

}  // namespace

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all = {
      kind_of<Adapter>(),       kind_of<Box>(),
      kind_of<Capacitor>(),     kind_of<Charger>(),
      kind_of<Connector>(),     kind_of<Converter>(),
      kind_of<Diode>(),         kind_of<Fan>(),
      kind_of<Fuse>(),          kind_of<IdealDiode>(),
      kind_of<Led>(),           kind_of<LevelIndicator>(),
      kind_of<Load>(),          kind_of<Pack>(),
      kind_of<PolarityGuard>(), kind_of<ProtectionBoard>(),
      kind_of<Relay>(),         kind_of<Resistor>(),
      kind_of<SurgeClamp>(),    kind_of<Switch>(),
      kind_of<TerminalBlock>(), kind_of<ThermalCutOut>(),
  };
  return all;
}

const Kind* find_kind(std::string_view name) {
  for (const Kind& kind : kinds()) {
    if (kind.description->name == name) return &kind;
  }
  return nullptr;
}

}  // namespace tideover::part
