/// Silicon junction or Schottky contact: what the two differ in.
#pragma once

#include <string_view>
#include <vector>

#include "part/junction_law.hpp"

namespace tideover::part {

enum class Material { Silicon, Schottky };

[[nodiscard]] inline std::vector<std::string_view> words_for_materials() {
  return {"silicon", "schottky"};
}

/// An ordinary rectifier at 25 degC. Silicon: 1 A class, 0.90 V at 1 A. Schottky: 3 A 40 V class,
/// 0.40 V at 1 A and 0.50 V at 3 A. Leakage at 40 V: 5 uA and 1 mA. Gap, barrier and exponent: Sze,
/// Physics of Semiconductor Devices; leakage doubling: every 10 to 12 K for silicon, from 2 mA at
/// 25 degC to 20 mA at 100 degC for the Schottky class, that is every 22.6 K (datasheet of a 3 A 40
/// V part, read). All typical, from memory, where nothing else is said.
[[nodiscard]] inline Junction typical_junction(Material material) {
  if (material == Material::Silicon) return {.leak_s = 1.25e-7};
  return {.saturation_a = 2e-6,
          .ideality = 1.05,
          .series_ohm = 0.04,
          .bandgap_v = 0.69,
          .exponent = 2.0,
          .leak_s = 2.5e-5,
          .leak_doubles_k = 22.6};
}

/// The diode between drain and source of a power MOSFET: 0.75 V at 1 A (typical, from memory).
[[nodiscard]] inline Junction body_diode() {
  return {.saturation_a = 2e-11, .ideality = 1.15, .series_ohm = 0.02, .leak_s = 2.5e-8};
}

}  // namespace tideover::part
