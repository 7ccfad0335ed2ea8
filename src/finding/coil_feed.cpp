#include "finding/coil_feed.hpp"

#include <algorithm>

#include "part/junction_material.hpp"

namespace tideover::finding {

using namespace quantity;

namespace {

build::TerminalName plus_of(const part::Relay& relay) { return {relay.name, "coil_plus"}; }

/// Forward voltage of one silicon diode: the junction's law turned round by halving.
double diode_v(Ampere current, Temperature air) {
  const part::Junction law = part::typical_junction(part::Material::Silicon);
  double low_v = 0.0;
  double high_v = 2.0;
  for (int k = 0; k < 60; ++k) {
    const double middle_v = 0.5 * (low_v + high_v);
    (law.current(middle_v, air.si()) < current.si() ? low_v : high_v) = middle_v;
  }
  return 0.5 * (low_v + high_v);
}

/// Current through coil and series parts at a rail voltage.
Ampere current_at(const part::Relay& relay, Volt rail, Temperature coil, Temperature air) {
  Ampere low;
  Ampere high = rail / relay.resistance_at(coil);
  for (int k = 0; k < 60; ++k) {
    const Ampere middle = 0.5 * (low + high);
    (rail_for(relay, middle, coil, air) < rail ? low : high) = middle;
  }
  return low;
}

}  // namespace

Volt rail_for(const part::Relay& relay, Ampere current, Temperature coil, Temperature air) {
  const Volt before = current * relay.series_resistor.nominal() +
                      Volt::of_si(relay.series_diodes * diode_v(current, air));
  return before + current * relay.resistance_at(coil);
}

Temperature settled_coil(const part::Relay& relay, Volt rail, Temperature air) {
  Temperature coil = air;
  // Hotter copper takes less power: it converges by more than a half each time.
  for (int k = 0; k < 30; ++k) {
    const Ampere current = current_at(relay, rail, coil, air);
    const Watt heat = current * current * relay.resistance_at(coil);
    coil = air + heat * (relay.winding_resistance.nominal() + relay.body_resistance.nominal());
  }
  return coil;
}

Volt lowest_at_coil(const Feeding& feeding, const part::Relay& relay, const Source& source) {
  return source.lowest - feeding.path(source, plus_of(relay)).drop;
}

Volt highest_at_coil(const Feeding& feeding, const part::Relay& relay, const Source& source) {
  return source.highest - feeding.path(source, plus_of(relay)).drop;
}

std::vector<const Source*> coil_sources(const Feeding& feeding, const part::Relay& relay) {
  std::vector<const Source*> all;
  for (const Source& source : feeding.sources()) {
    if (feeding.feed(source, plus_of(relay))) all.push_back(&source);
  }
  return all;
}

}  // namespace tideover::finding
