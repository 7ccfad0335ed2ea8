/// Random but plausible builds, as sheet text: so that the reader is met on the way.
#pragma once

#include <cstdint>
#include <string>
#include <utility>

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

  // What not every builder meets; `odd_build` turns these.
  bool is_lead_acid = false;  ///< one block of 12 V without a board, on a rail of 24 V
  bool has_ideal_diodes = false;
  bool is_earthed = false;  ///< the adapter's minus and the load's signal ground, both to earth
  bool pulls_plug = false;  ///< in mid-outage the adapter's DC plug is pulled, later put back
  int repeats = 1;          ///< of the whole timeline
  /// Two leads whose second ends are swapped, by their numbers in the sheet from 1 on; 0: none.
  std::pair<int, int> swapped{0, 0};

  [[nodiscard]] int lead_count() const;
  [[nodiscard]] std::string sheet() const;
  /// Read; a refused sheet fails the test with the messages.
  [[nodiscard]] build::Build build() const;
};

/// A random build with one or more of the rarer choices: an adapter that hiccups, lead-acid, a plug
/// pulled in mid-timeline, ideal diodes, an earthed point. Every second one repeats its timeline.
[[nodiscard]] RandomBuild odd_build(std::uint64_t seed);

/// An odd build with two of its leads swapped: a slip that every builder makes. The reader may
/// refuse it.
[[nodiscard]] RandomBuild miswired_build(std::uint64_t seed);

}  // namespace tideover::test
