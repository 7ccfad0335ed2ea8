/// Every rule by name; each is told in the file of that name.
#pragma once

#include "finding/finding.hpp"

namespace tideover::finding {

[[nodiscard]] const Rule& polarity();
[[nodiscard]] const Rule& breaks();
[[nodiscard]] const Rule& pack_off();
[[nodiscard]] const Rule& load_voltage();
[[nodiscard]] const Rule& load_overfed();
[[nodiscard]] const Rule& adapter_loading();
[[nodiscard]] const Rule& adapter_voltage_fits();
[[nodiscard]] const Rule& charger_spare();
[[nodiscard]] const Rule& converter_input();
[[nodiscard]] const Rule& converter_drop_out();
[[nodiscard]] const Rule& converter_power();
[[nodiscard]] const Rule& charge_voltage();
[[nodiscard]] const Rule& charge_release();
[[nodiscard]] const Rule& balancing_reachable();
[[nodiscard]] const Rule& cell_charge_current();
[[nodiscard]] const Rule& cell_discharge_current();
[[nodiscard]] const Rule& cut_off_order();
[[nodiscard]] const Rule& board_current();
[[nodiscard]] const Rule& cold_charging();
[[nodiscard]] const Rule& cell_temperature();
[[nodiscard]] const Rule& part_temperature();
[[nodiscard]] const Rule& chatter();
[[nodiscard]] const Rule& wire_loss();
[[nodiscard]] const Rule& rating();

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
