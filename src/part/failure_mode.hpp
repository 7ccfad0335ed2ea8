/// How a kind of part fails: what breaks at its terminals, and what becomes of its values.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "quantity/value.hpp"

namespace tideover::part {

class Part;

/// Something wrong between a part and its terminals. Terminals by name, "out_plus".
struct Damage {
  enum class What {
    Open,       ///< `terminal` meets nothing any more
    Resistive,  ///< `resistance` stands in the way to `terminal`
    Bridged,    ///< `resistance` joins `terminal` and `other`
    Exchanged,  ///< what belongs at `terminal` is at `other`, and the other way round
  };
  What what{};
  std::string terminal;
  std::string other = {};
  quantity::Ohm resistance = {};
};

/// Of a bridge that nobody made on purpose: a blob of solder, a chafed strand, a welded contact.
/// Assumed.
inline constexpr quantity::Ohm bridge = quantity::Ohm::of_si(0.02);
/// Of a screw that has come loose or a plug half in. Assumed: a worn contact drops some tenths of a
/// volt at an ampere.
inline constexpr quantity::Ohm poor_contact = quantity::Ohm::of_si(0.5);

[[nodiscard]] inline Damage opened(std::string terminal) {
  return {Damage::What::Open, std::move(terminal)};
}
[[nodiscard]] inline Damage resistive(std::string terminal, quantity::Ohm resistance) {
  return {Damage::What::Resistive, std::move(terminal), {}, resistance};
}
[[nodiscard]] inline Damage bridged(std::string terminal, std::string other,
                                    quantity::Ohm resistance = bridge) {
  return {Damage::What::Bridged, std::move(terminal), std::move(other), resistance};
}
[[nodiscard]] inline Damage exchanged(std::string terminal, std::string other) {
  return {Damage::What::Exchanged, std::move(terminal), std::move(other)};
}

struct FailureMode {
  std::string name;                        ///< "work contact welded": unique within the part
  std::string means;                       ///< what the part then does
  std::vector<Damage> damages = {};        ///< may arise at any instant
  std::function<void(Part&)> alters = {};  ///< its values once it has failed; empty: they stay.
                                           ///< Such a fault is there from the start of a run.
};

/// `change` as FailureMode::alters of a part of type P.
template <class P, class Change>
[[nodiscard]] std::function<void(Part&)> altering(Change change) {
  return [change](Part& part) { change(dynamic_cast<P&>(part)); };
}

/// What is left of `amount`, its tolerance with it.
inline void scale(quantity::Amount& amount, double factor) {
  amount.nominal_si *= factor;
  amount.low_si *= factor;
  amount.high_si *= factor;
}
/// `value` becomes `exact`, as if the sheet had said so.
template <class Type>
void put(quantity::Value<Type>& value, Type exact) {
  value = quantity::Value<Type>(exact);
  value.given = true;
}

}  // namespace tideover::part
