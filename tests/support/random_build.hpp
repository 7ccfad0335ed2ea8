/// Random but plausible builds, as sheet text: so that the reader is met on the way.
#pragma once

#include <cstdint>
#include <string>

#include "build/build.hpp"

namespace tideover::test {

/// One random build. The same seed makes the same one; the knobs below may then be turned.
struct RandomBuild {
  explicit RandomBuild(std::uint64_t seed);

  std::uint64_t seed;
  double rail_v;
  bool is_lfp;
  int series;
  int parallel;
  double charge_v_per_cell;
  double charge_a;
  double draw_w;
  enum class Draw { Power, Current, Resistance } draw;
  bool has_bursts;
  bool has_relay;  ///< else two diodes
  bool has_box;
  bool has_self_discharge = true;
  double input_capacitance_f;
  double adapter_a;
  std::string overload;  ///< of the adapter
  double lead_mm2;
  double supply_lead_mm;  ///< from the converter's side to the load
  double ambient_c;

  [[nodiscard]] std::string sheet() const;
  /// Read; a refused sheet fails the test with the messages.
  [[nodiscard]] build::Build build() const;
};

}  // namespace tideover::test
