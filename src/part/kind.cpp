#include "part/kind.hpp"

#include "part/adapter/adapter.hpp"
#include "part/box/box.hpp"
#include "part/capacitor/capacitor.hpp"
#include "part/charger/charger.hpp"
#include "part/connector/connector.hpp"
#include "part/converter/converter.hpp"
#include "part/fan/fan.hpp"
#include "part/led/led.hpp"
#include "part/level_indicator/level_indicator.hpp"
#include "part/load/load.hpp"
#include "part/resistor/resistor.hpp"
#include "part/switch/switch.hpp"
#include "part/terminal_block/terminal_block.hpp"

namespace tideover::part {

namespace {

template <class P>
Kind kind_of() {
  return {&P::describe(), [] { return std::make_unique<P>(); }};
}

}  // namespace

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all = {
      kind_of<Adapter>(),
      kind_of<Box>(),
      kind_of<Capacitor>(),
      kind_of<Charger>(),
      kind_of<Connector>(),
      kind_of<Converter>(),
      kind_of<Fan>(),
      kind_of<Led>(),
      kind_of<LevelIndicator>(),
      kind_of<Load>(),
      kind_of<Resistor>(),
      kind_of<Switch>(),
      kind_of<TerminalBlock>(),
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
