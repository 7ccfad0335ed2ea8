/// Losses of a converter from one to five readings at the bench, starting from its class.
#pragma once

#include <span>
#include <string_view>

#include "quantity/units.hpp"

namespace tideover::part {

/// Input power - output power = idle v_in + linear i_out + square i_out^2.
struct Losses {
  quantity::Ampere idle;  ///< input current with nothing at the output
  quantity::Volt linear;  ///< rectifier and switching, per output ampere
  quantity::Ohm square;   ///< copper and switches
};

struct LossReading {
  quantity::Volt input;
  quantity::Ampere input_current;
  quantity::Volt output;
  quantity::Ampere output_current;
};

struct LossFit {
  Losses losses;
  /// "idle", "linear" or "square": the term the readings moved most, in watts at the first
  /// reading; "none" without readings.
  std::string_view moved_most = "none";
};

/// Least squares on the readings and on the class at once, all terms >= 0. A term moves the more
/// the less a class knows it (idle: as much again; linear and square: a third) and the more the
/// readings feel it, so that one light-load reading moves the idle term and leaves the square term
/// alone. Readings are trusted to 1e-4 of their input power: up to three are met exactly.
/// Expects at most five readings with input power > 0.
/// Source: linear least squares with a prior (ridge), Lawson and Hanson, Solving Least Squares
/// Problems, ch. 25 and 23 for the signs (from memory).
[[nodiscard]] LossFit fit_losses(const Losses& of_class, std::span<const LossReading> readings);

}  // namespace tideover::part
