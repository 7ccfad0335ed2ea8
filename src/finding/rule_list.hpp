/// Every rule by name; each is told in the file of that name.
#pragma once

#include "finding/finding.hpp"

namespace tideover::finding {

[[nodiscard]] const Rule& charge_voltage();

// Protection, contacts, classes and marks.
[[nodiscard]] const Rule& fuse_for_each_source();
[[nodiscard]] const Rule& fuse_for_each_lead();
[[nodiscard]] const Rule& lead_withstand();
[[nodiscard]] const Rule& fuse_loading();
[[nodiscard]] const Rule& fuse_voltage();
[[nodiscard]] const Rule& fuse_breaking();
[[nodiscard]] const Rule& fuse_selectivity();
[[nodiscard]] const Rule& fuse_inrush();
[[nodiscard]] const Rule& relay_pick_up();
[[nodiscard]] const Rule& relay_contact();
[[nodiscard]] const Rule& relay_release();
[[nodiscard]] const Rule& diode_current();
[[nodiscard]] const Rule& diode_heat();
[[nodiscard]] const Rule& capacitor_voltage();
[[nodiscard]] const Rule& capacitor_inrush();
[[nodiscard]] const Rule& lead_ampacity();
[[nodiscard]] const Rule& connector_current();
[[nodiscard]] const Rule& terminal_current();
[[nodiscard]] const Rule& switch_current();
[[nodiscard]] const Rule& box_ventilation();
[[nodiscard]] const Rule& voltage_class();
[[nodiscard]] const Rule& power_class();
[[nodiscard]] const Rule& transport_class();
[[nodiscard]] const Rule& storage_discharge();
[[nodiscard]] const Rule& polarity_marking();
[[nodiscard]] const Rule& colour_marking();

}  // namespace tideover::finding
