#include "finding/coil_feed.hpp"

#include <algorithm>

#include "finding/demand.hpp"
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

/// Current through coil and series parts at a rail voltage, sought by the voltage of one diode.
Ampere current_at(const part::Relay& relay, Volt rail, Temperature coil, Temperature air) {
  const Ohm resistance = relay.resistance_at(coil) + relay.series_resistor.nominal();
  if (relay.series_diodes == 0) return rail / resistance;
  const part::Junction law = part::typical_junction(part::Material::Silicon);
  double low_v = 0.0;
  double high_v = std::min(2.0, rail.si() / relay.series_diodes);
  for (int k = 0; k < 60; ++k) {
    const double middle_v = 0.5 * (low_v + high_v);
    const double needed_v =
        law.current(middle_v, air.si()) * resistance.si() + relay.series_diodes * middle_v;
    (needed_v < rail.si() ? low_v : high_v) = middle_v;
  }
  return Ampere::of_si(law.current(low_v, air.si()));
}

/// An adapter at its full load: it carries its device and fills capacitors while the relay is to
/// pull.
Volt least_of(const Source& source) {
  const auto* const adapter = dynamic_cast<const part::Adapter*>(source.part);
  return adapter != nullptr ? std::min(source.lowest, full_load_voltage(*adapter)) : source.lowest;
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
  return least_of(source) - feeding.path(source, plus_of(relay)).drop;
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
