// How an adapter fails, and which wrong one is plugged in for it.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "part/adapter/adapter.hpp"

namespace tideover::part {

using namespace quantity;
using namespace quantity::literals;

namespace {

/// Voltages that adapters with the same plug are sold with: common practice, no source.
constexpr std::array common_outputs{5.0_V, 9.0_V, 12.0_V, 15.0_V, 19.0_V, 24.0_V, 36.0_V, 48.0_V};
/// One that is nearer than this is the same adapter, adjusted.
constexpr double another = 1.1;
/// With its regulation lost an adapter's output stands this much too high. Assumed.
constexpr double runaway = 1.2;
/// What is left of an adapter that has aged. Assumed.
constexpr double tired_share = 0.5;
/// Dried-out capacitors: what is left of what they store, and how their resistance grows. Assumed;
/// the usual end of life is a loss of a fifth (IEC 60384-4, from memory).
constexpr double dried_share = 0.2;
constexpr double dried_esr = 5.0;

/// Another adapter: what was stated of the right one beside its rated current says nothing of it.
void swap_for(Adapter& adapter, Volt output) {
  put(adapter.output, output);
  adapter.curve.clear();
}

void add_wrong_adapter(const Adapter& adapter, std::vector<FailureMode>& modes) {
  const auto* const above = std::ranges::find_if(
      common_outputs, [&](Volt one) { return one > another * adapter.output.nominal(); });
  if (above == common_outputs.end()) return;
  modes.push_back({fmt::format("{:g} V one in its place", above->si()),
                   "an adapter of the next higher voltage is plugged in for it",
                   {},
                   altering<Adapter>([output = *above](Adapter& it) { swap_for(it, output); })});
}

}  // namespace

void Adapter::raise_output(double factor) {
  scale(output, factor);
  for (VoltAmperePoint& point : curve) scale(point.volts, factor);
}

void Adapter::weaken(double factor) {
  scale(rated, factor);
  scale(limit, factor);
  for (VoltAmperePoint& point : curve) scale(point.amps, factor);
}

std::vector<FailureMode> Adapter::failure_modes() const {
  std::vector<FailureMode> modes{
      {"dead", "it gives nothing", {opened("plus")}},
      {"shorted", "its output is a short circuit", {bridged("plus", "minus")}},
      {"plug half in", "its plug makes a poor contact", {resistive("plus", poor_contact)}},
      {"plug reversed",
       "its plus and its minus are swapped: the wrong polarity of plug",
       {exchanged("plus", "minus")}},
      {"runs high",
       "its regulation is lost and its output stands a fifth too high",
       {},
       altering<Adapter>([](Adapter& it) { it.raise_output(runaway); })},
      {"tired", "it gives half the current of its label", {}, altering<Adapter>([](Adapter& it) {
         it.weaken(tired_share);
       })},
      {"capacitors dried out",
       "it carries through a fifth of the time it used to",
       {},
       altering<Adapter>([](Adapter& it) {
         scale(it.hold_up, dried_share);
         scale(it.output_capacitance, dried_share);
         scale(it.output_esr, dried_esr);
       })}};
  add_wrong_adapter(*this, modes);
  return modes;
}

}  // namespace tideover::part
